"""What runs beside a student's answers, in their notebook and in the sandbox of the marking.

Nothing here knows a question, a model answer or a mark: in the sandbox the student's code can
read and change all of it. The modules need only the standard library and NumPy, and import each
other by their bare names when `start` runs as a script.
"""
