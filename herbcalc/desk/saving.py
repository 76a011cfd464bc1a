"""What a saved lesson keeps of its panels: the still picture, not the sleeping slider.

A panel shows as a widget while its kernel runs and carries a still of its start beside it. A
widget saved without its kernel can only say that it is missing; so what goes to disk is the still.
The open page keeps its sliders: only the file is lighter.
"""

WIDGET = "application/vnd.jupyter.widget-view+json"


def keep_stills(model=None, **_):
    """A pre-save hook of Jupyter's contents manager: change `model` before it is written."""
    if not model or model.get("type") != "notebook" or not model.get("content"):
        return
    notebook = model["content"]
    for cell in notebook.get("cells", ()):
        for output in cell.get("outputs", ()):
            shown = output.get("data", {})
            if "text/html" in shown:
                shown.pop(WIDGET, None)
    notebook.get("metadata", {}).pop("widgets", None)
