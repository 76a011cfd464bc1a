"""Our panels beside the plain way, in JupyterLab, in one run.

    python tests/panel_benchmark.py              every panel of the course (half an hour)
    python tests/panel_benchmark.py make_up      some of them, by name

The plain way is what notebooks usually do: a slider of ipywidgets whose observer clears an output
and shows a new pyplot figure, drawn here by the very same functions as our panel's picture. Both
stand in one cell of one notebook. Keys are pressed on the one and the other in turns; a picture
counts as changed when the new one is decoded and a frame has begun. Then the handle of a
slider is dragged to and fro for the same time and the new pictures are counted. All the while every change
of our picture element is watched: it must never be empty, absent or of another size.
"""

import os
import statistics
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import ipywidgets
import nbformat
import numpy as np
from IPython.display import clear_output, display

import herbcalc as hc
from herbcalc import explore
from herbcalc.figures import style
from herbcalc.figures.jar import draw_glass, draw_jar, vessel_axes
from herbcalc.panel import Choice, Entry, Panel, Slider, Tick

WATCH = """
(side) => {
  const root = document.querySelector(side === "ours" ? ".hc-figure" : ".plain-picture");
  const seen = { changes: [], faults: [], pressed: 0 };
  const box = () => {
    const { width, height } = root.querySelector("img").getBoundingClientRect();
    return `${width.toFixed(1)} x ${height.toFixed(1)}`;
  };
  const first = box();
  let last = root.querySelector("img").src;
  const look = (when) => {
    const image = root.querySelector("img");
    if (!image || !image.isConnected) return seen.faults.push(`${when}: no picture`);
    if (!image.getAttribute("src") || !image.naturalWidth)
      seen.faults.push(`${when}: empty picture`);
    if (box() !== first) seen.faults.push(`${when}: ${box()} instead of ${first}`);
  };
  new MutationObserver(() => {
    look("mutation");
    const image = root.querySelector("img");
    if (!image || image.src === last) return;
    last = image.src;
    image.decode().then(
      () => requestAnimationFrame(() => seen.changes.push(performance.now())),
      () => {},
    );
  }).observe(root, { subtree: true, childList: true, attributes: true });
  new ResizeObserver(() => look("resize")).observe(root);
  window.addEventListener("keydown", (event) => (seen.pressed = event.timeStamp), true);
  window.seen = Object.assign(window.seen || {}, { [side]: seen });
}
"""


# --- both ways -----------------------------------------------------------------------------------


def demo():
    """A panel of two axes, a jar and a curve, for trying the machine out."""
    herbs = {"fresh peppermint": ("peppermint", "fresh"), "dried spearmint": ("spearmint", "dried")}
    strengths = np.linspace(30, 95, 40)

    def axes(figure):
        return figure.subplots(1, 2, width_ratios=[1.2, 1])

    def backdrop(axes):
        jar, curve = axes
        vessel_axes(jar)
        draw_glass(jar, 500, label="500 mL jar")
        curve.plot([30, 95], [30, 95], **style.MISTAKE_LINE)
        curve.set(
            xlim=(30, 95), ylim=(0, 95), xlabel="Spirit poured [% vol]",
            ylabel="Strength in the end [% vol]",
        )

    def show(axes, fill, abv, herb, own_weight, note, ending):
        name, state = herbs[herb]
        plant = hc.herb(name, state)
        jar = hc.Jar(volume=500, herb=plant, fill=fill / 100, menstruum=hc.spirit(1, abv=abv))
        ethanol = jar.menstruum_volume * abv / 100
        draw_jar(
            axes[0], 500, herb_volume=5 * fill, liquid_volume=jar.menstruum_volume, head_space=25,
            parts={
                "ethanol": ethanol, "water": jar.menstruum_volume - ethanol,
                "herb's water": jar.herb_water,
            },
            fresh=state == "fresh", glass=False,
        )
        many = hc.Jar(500, plant, fill=fill / 100, menstruum=hc.spirit(1, abv=strengths))
        axes[1].plot(strengths, many.final.abv, color=style.RESULT)
        end = jar.final.abv
        if ending:
            axes[1].plot([abv], [end], "o", color=style.RESULT, markersize=13)
        return f"Poured at {abv} % vol, the jar ends at {end:.0f} % vol. {note}".strip()

    return Panel(
        title="The water hidden in the herb",
        controls=dict(
            fill=Slider("Herb fills", 5, 100, start=75, step=5, unit="% of the jar"),
            abv=Slider("Spirit", 38, 95, start=60, unit="% vol", help="As the label says."),
            herb=Choice("Herb", list(herbs), start="fresh peppermint"),
            own_weight=Entry("Own weighing", None, low=0, high=300, unit="g"),
            note=Entry("Note", "", length=40),
            ending=Tick("Show where it ends", start=True),
        ),
        axes=axes, backdrop=backdrop, show=show,
        alt="A jar of herb in spirit, and the strength in the end over the strength poured.",
    )


def plain(panel: Panel):
    """`panel` the plain way: sliders, and an output that is cleared and shows a new figure."""
    import matplotlib
    import matplotlib.pyplot as plt

    fields = {}
    for name, control in panel.controls.items():
        if isinstance(control, Slider):
            kind = ipywidgets.IntSlider if control.decimals == 0 else ipywidgets.FloatSlider
            fields[name] = kind(
                value=control.start, min=control.low, max=control.high, step=control.step,
                description=control.label,
            )
        elif isinstance(control, Choice):
            fields[name] = ipywidgets.Dropdown(
                options=list(control.options), value=control.start, description=control.label,
            )
        elif isinstance(control, Tick):
            fields[name] = ipywidgets.Checkbox(value=control.start, description=control.label)
        else:
            fields[name] = ipywidgets.Text(
                value=str(control.raw(control.start)), description=control.label,
            )
        fields[name].add_class(f"plain-{name}")
    output = ipywidgets.Output()
    output.add_class("plain-picture")

    def draw(change=None):
        values = panel.read({name: field.value for name, field in fields.items()})
        with output, matplotlib.rc_context(style.STYLE):
            clear_output(wait=True)
            figure = plt.figure(figsize=panel.size, dpi=96)
            axes = panel._axes(figure) if panel._axes else figure.add_subplot()
            if panel._backdrop:
                panel._backdrop(axes)
            sentence = panel._show(axes, **values)
            plt.show()
            print(sentence)

    for field in fields.values():
        field.observe(draw, "value")
    draw()
    return ipywidgets.VBox([*fields.values(), output])


def panel_named(name: str) -> Panel:
    """The demo or a panel of the course."""
    return demo() if name == "demo" else getattr(explore, name)()


def beside(name: str):
    """Show a panel and the plain way in one cell."""
    panel = panel_named(name)
    display(panel)
    display(plain(panel))


@dataclass(frozen=True)
class Mover:
    """The control of a panel to press: there and back are keys that change its picture."""

    control: str
    kind: str
    there: str
    back: str


def mover(name: str) -> Mover:
    """The control that shows best how quick a panel is: a slider of many steps where it has one."""
    panel = panel_named(name)
    start = panel.answer().picture
    found = []
    for key, control in panel.controls.items():
        moves = []
        if control.kind == "slider":
            rank = (control.high - control.low) / control.step
            moves = [(control.start + control.step, "ArrowRight", "ArrowLeft"),
                     (control.start - control.step, "ArrowLeft", "ArrowRight")]
        elif control.kind == "choice":
            rank, labels = -1, list(control.options)
            at = labels.index(control.start)
            moves = [(label, "ArrowDown", "ArrowUp") for label in labels[at + 1 : at + 2]]
            moves += [(label, "ArrowUp", "ArrowDown") for label in labels[max(at - 1, 0) : at]]
        elif control.kind == "tick":
            rank, moves = -2, [(not control.start, "Space", "Space")]
        for raw, there, back in moves:
            moved = panel.answer(**{key: control.read(raw)})
            if moved.kind == "answer" and moved.picture != start:
                found.append((rank, Mover(key, control.kind, there, back)))
                break
    if not found:
        raise ValueError(f"No control of {name} changes its picture at once.")
    return max(found, key=lambda one: one[0])[1]


def notebook(folder: Path, name: str) -> str:
    """Write a notebook with one cell, the panel `beside` the plain way; -> its name."""
    code = (
        f"import sys; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
        f"import panel_benchmark; panel_benchmark.beside({name!r})"
    )
    cell = nbformat.v4.new_code_cell(code, id="beside")
    spec = {"name": "python3", "display_name": "Python 3", "language": "python"}
    made = nbformat.v4.new_notebook(cells=[cell], metadata={"kernelspec": spec})
    nbformat.write(made, folder / f"beside-{name}.ipynb")
    return f"beside-{name}"


# --- measuring -----------------------------------------------------------------------------------


@dataclass
class Outcome:
    """What one panel did beside the plain way: medians in ms, pictures a second, faults seen."""

    name: str
    ours: float
    plain: float
    our_rate: float | None
    plain_rate: float | None
    faults: list

    @property
    def ratio(self) -> float:
        return self.ours / self.plain

    def __str__(self):
        said = (
            f"{self.name:22s} key to picture {self.ours:5.0f} ms, plain {self.plain:5.0f} ms, "
            f"ratio {self.ratio:.2f}"
        )
        if self.our_rate is not None:
            said += f"; dragging {self.our_rate:4.1f} pictures/s, plain {self.plain_rate:4.1f}"
        return said + (f"; FAULTS {self.faults[:3]}" if self.faults else "")


def _until(page, condition, seconds=20.0):
    page.wait_for_function(condition, timeout=seconds * 1000)


def _quiet(page, side, seconds=0.35):
    """Wait until `side` has not changed its picture for a while."""
    _until(page, f"performance.now() - (seen.{side}.changes.at(-1) || 0) > {seconds * 1000}")


def _press(page, side, handle, key) -> float:
    """Milliseconds from the key press to the changed picture."""
    handle.focus()
    page.evaluate(f"seen.{side}.changes.length = 0")
    page.keyboard.press(key)
    _until(page, f"seen.{side}.changes.length > 0")
    _quiet(page, side)
    return page.evaluate(f"seen.{side}.changes[0] - seen.{side}.pressed")


def _drag(page, side, track, seconds) -> float:
    """New pictures a second while the handle is dragged to and fro."""
    track.scroll_into_view_if_needed()
    box = track.bounding_box()
    middle = box["y"] + box["height"] / 2

    def at(share):
        return box["x"] + box["width"] * (0.08 + 0.84 * share)

    page.mouse.move(at(0.5), middle)
    page.mouse.down()
    page.evaluate(f"seen.{side}.changes.length = 0")
    began = time.perf_counter()
    while (passed := time.perf_counter() - began) < seconds:
        page.mouse.move(at(abs((passed / 0.6 + 0.5) % 2 - 1)), middle)
        time.sleep(0.008)
    pictures = page.evaluate(f"seen.{side}.changes.length")
    page.mouse.up()
    return pictures / seconds


def measure(page, course, name, presses=20, drag=3.0) -> Outcome:
    """Open the panel `beside` the plain way and measure both."""
    from browser import open_lesson, run_all

    moved = mover(name)
    open_lesson(page, course, notebook(course.folder, name))
    run_all(page)
    page.wait_for_selector(".hc-panel .hc-picture", timeout=60_000)
    page.wait_for_selector(".plain-picture img", timeout=60_000)
    time.sleep(1.0)  # the picture settles to the page's width
    for side in ("ours", "plain"):
        page.evaluate(WATCH, side)
    ours = page.locator(f'.hc-panel [data-control="{moved.control}"]')
    handle = {"slider": ".noUi-handle", "choice": "select", "tick": "input"}[moved.kind]
    theirs = page.locator(f".plain-{moved.control} {handle}")
    # without this mark JupyterLab takes the arrow keys of a plain list for its own
    theirs.evaluate("(at) => at.setAttribute('data-lm-suppress-shortcuts', 'true')")
    times = {"ours": [], "plain": []}
    for turn in range(presses + 1):
        key = moved.back if turn % 2 else moved.there
        for side, at in (("ours", ours), ("plain", theirs)):
            took = _press(page, side, at, key)
            if turn:  # the first ones warm up
                times[side].append(took)
    rates = {"ours": None, "plain": None}
    if moved.kind == "slider":
        track = page.locator(f".plain-{moved.control} .noUi-target")
        for side, at in (("ours", ours), ("plain", track)):
            rates[side] = _drag(page, side, at, drag)
            _quiet(page, side, 1.0)
    return Outcome(
        name, statistics.median(times["ours"]), statistics.median(times["plain"]),
        rates["ours"], rates["plain"], page.evaluate("seen.ours.faults"),
    )


def main(names):
    """Measure the panels named (default: all that have a slider) and print their ratios."""
    from browser import FLAGS, chromium, start_course
    from playwright.sync_api import sync_playwright

    place = Path(tempfile.mkdtemp(prefix="panels-"))
    course = start_course(place / "herb-course", cwd=place)
    outcomes = []
    try:
        with sync_playwright() as driver:
            browser = driver.chromium.launch(executable_path=chromium(), args=FLAGS)
            print(f"{len(explore.__all__)} panels; load {os.getloadavg()[0]:.1f}", flush=True)
            for name in names or ["demo", *explore.__all__]:
                page = browser.new_page(viewport={"width": 1500, "height": 1900})
                try:
                    outcomes.append(measure(page, course, name))
                    print(outcomes[-1], flush=True)
                except Exception as error:  # one panel must not cost the others their figures
                    print(f"{name:22s} NOT MEASURED: {str(error).splitlines()[0]}", flush=True)
                page.close()
    finally:
        course.close()
    ratios = sorted(outcome.ratio for outcome in outcomes)
    rates = [outcome.our_rate for outcome in outcomes if outcome.our_rate is not None]
    print(
        f"ratio {ratios[0]:.2f} to {ratios[-1]:.2f}, median {statistics.median(ratios):.2f}; "
        f"at most 0.45 in {sum(ratio <= 0.45 for ratio in ratios)} of {len(ratios)} panels; "
        f"15 pictures/s or more while dragging in "
        f"{sum(rate >= 15 for rate in rates)} of {len(rates)}; "
        f"a picture empty, absent or resized in {sum(bool(each.faults) for each in outcomes)}"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
