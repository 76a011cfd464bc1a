"""The classroom: questions, numbers per student, checking, the homework notebook, handing in.

A homework notebook starts with ``open_homework``; an exercise folder's ``questions.py`` builds
its questions from the kinds listed here.
"""

from herbcalc.classroom.checking import Outcome, Verdict, judge, judge_calls, model_answer
from herbcalc.classroom.handing_in import before_handing_in
from herbcalc.classroom.homework import Homework, open_homework
from herbcalc.classroom.notebook import homework_notebook, model_notebook, notebook_text
from herbcalc.classroom.numbers import Drawn, calls, draw, student_key
from herbcalc.classroom.questions import (
    Before,
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Option,
    Order,
    Point,
    Published,
    Question,
    Row,
    Table,
    Tolerance,
    Turn,
    steps,
)
from herbcalc.classroom.topics import Topic, faults, find_topic, load_topic, topics
