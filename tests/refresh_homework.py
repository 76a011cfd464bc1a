"""Write every ``exercises/NN-topic/homework.ipynb`` anew from its questions (self-study numbers).

Run after a change to a ``questions.py``: ``python tests/refresh_homework.py``. A test says when
it was forgotten.
"""

from herbcalc import places
from herbcalc.classroom import homework_notebook, notebook_text, topics
from herbcalc.files import write_whole

if __name__ == "__main__":
    for topic in topics():
        if topic.homework:
            path = places.exercises() / topic.name / "homework.ipynb"
            write_whole(path, notebook_text(homework_notebook(topic)))
            print(f"{topic.name}: {len(topic.homework)} questions")
