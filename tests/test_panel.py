"""Panels: what they accept, what they answer, and that the quick picture is the true picture."""

import asyncio
import base64
import html.parser
import io
import logging

import matplotlib
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jupyter_client.manager import start_new_async_kernel
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from panel_benchmark import demo
from PIL import Image

from herbcalc import explore
from herbcalc.figures.style import STYLE
from herbcalc.panel import Action, Choice, Entry, Panel, Slider, Tick

COURSE = {name: getattr(explore, name) for name in explore.__all__}


def small(show=lambda axes, water: f"You pour {water} mL.", **more):
    given = dict(
        title="Pouring", alt="A point on a line.", size=(3, 2), show=show,
        controls=dict(water=Slider("Water", 0, 500, start=100, step=10, unit="mL")),
        backdrop=lambda axes: axes.set(xlim=(0, 500), ylim=(0, 1), xlabel="Water [mL]"),
    )
    return Panel(**given | more)


# --- controls ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "make, words",
    [
        (lambda: Slider("", 0, 1), "needs a label"),
        (lambda: Slider("Water", 10, 10), "must be below"),
        (lambda: Slider("Water", 0, float("nan")), "not a number"),
        (lambda: Slider("Water", 0, 100, start=101), "outside"),
        (lambda: Slider("Water", 0, 100, step=0), "above zero"),
        (lambda: Slider("Water", 0, 100, step=30), "never land on 100"),
        (lambda: Choice("Herb", []), "nothing to choose"),
        (lambda: Choice("Herb", ["mint"], start="sage"), "not among mint"),
        (lambda: Entry("Weight", 5), "not a number"),
        (lambda: Entry("Weight", 5, low=10, high=20), "outside"),
        (lambda: Entry("Name", "mint", length=0), "1 to 1000"),
        (lambda: Tick("Show", start="yes"), "True or False"),
        (lambda: Action("Keep", do=None), "must be a function"),
        (lambda: small(title=" "), "needs a title"),
        (lambda: small(size=(99, 1)), "1 to 16 inches"),
        (lambda: small(controls=dict(water=7)), "water is no Slider"),
        (lambda: small(show=lambda axes, water, herb: ""), "asks for herb"),
        (lambda: small(show=lambda axes: ""), "does not take the control water"),
    ],
)
def test_a_wrong_panel_is_refused_in_a_sentence(make, words):
    with pytest.raises(ValueError, match=words):
        make()


@given(
    low=st.integers(-50, 50), steps=st.integers(1, 200),
    step=st.sampled_from([0.01, 0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10]), raw=st.floats(-1e6, 1e6),
)
def test_a_slider_gives_a_step_within_its_limits(low, steps, step, raw):
    high = low + steps * step
    slider = Slider("Amount", low, high, step=step)
    value = slider.read(raw)
    assert low <= value <= high + 1e-9
    assert abs((value - low) / step - round((value - low) / step)) < 1e-6
    assert slider.read(value) == value
    if low <= raw <= high:
        assert abs(value - raw) <= step / 2 + 1e-9
    assert isinstance(value, int) == (step >= 1)


@given(raw=st.one_of(st.floats(allow_nan=False), st.integers(), st.just("12,5"), st.just(" 7 ")))
def test_an_entry_keeps_its_limits_and_reads_a_decimal_comma(raw):
    entry = Entry("Weight", 5, low=0, high=100, step=0.1, unit="g")
    try:
        value = entry.read(raw)
    except ValueError as error:  # too large for a number at all
        assert str(error) == "Weight: please give a number."
    else:
        assert 0 <= value <= 100
        if raw == "12,5":
            assert value == 12.5


@given(text=st.text(max_size=300))
def test_a_text_entry_is_one_short_line(text):
    kept = Entry("Name", "mint", length=40).read(text)
    assert len(kept) <= 40 and "\n" not in kept and kept == kept.strip()


def test_a_choice_gives_what_stands_behind_its_label():
    herbs = {"dried": 0.1, "fresh": 0.8}
    seen = []
    panel = small(
        controls=dict(state=Choice("State", lambda: herbs, start="fresh")),
        show=lambda axes, state: seen.append(state) or f"{state:.0%} of it is water.",
    )
    herbs["wilted"] = 0.5  # asked for when the panel was made, not later
    assert panel.controls["state"].spec()["options"] == ["dried", "fresh"]
    assert panel.answer().sentence == "80% of it is water."
    assert panel.answer(state="dried").sentence == "10% of it is water."
    assert seen == [0.8, 0.1]


def test_values_from_the_page_are_put_within_their_limits():
    panel = small()
    assert panel.read({"water": 1e9}) == {"water": 500}
    assert panel.read({"water": 104, "other": 1}) == {"water": 100}
    assert panel.read({}) == {"water": 100}
    with pytest.raises(ValueError, match="no control is called herb"):
        panel.answer(herb=1)


# --- answers -------------------------------------------------------------------------------------


def test_alt_text_is_what_is_shown_and_what_came_out():
    answer = small().answer(water=250)
    assert answer.alt == "A point on a line. You pour 250 mL."
    assert (answer.kind, answer.sentence) == ("answer", "You pour 250 mL.")


def test_impossible_values_say_why_and_leave_the_last_picture():
    def show(axes, water):
        axes.plot([water], [0.5], "o")
        if water == 0:
            raise ValueError("There is no water\nto pour.")
        return f"You pour {water} mL."

    panel = small(show)
    before = panel.answer()
    after = panel._answer({"water": 0}, 1.0, before.picture)
    assert (after.kind, after.sentence) == ("warning", "There is no water to pour.")
    assert after.picture == before.picture
    assert panel.answer() == before  # and nothing of the failed picture is left behind


def test_a_panel_that_starts_impossible_shows_its_backdrop():
    def show(axes, water):
        raise ValueError("Not today.")

    answer = small(show).answer()
    empty = small(lambda axes, water: "Nothing drawn.").answer()
    assert answer.kind == "warning" and answer.picture == empty.picture


@pytest.mark.parametrize(
    "show, name",
    [
        (lambda axes, water: 1 / 0, "ZeroDivisionError"),
        (lambda axes, water: None, "TypeError"),
        (lambda axes, water: axes.set_xlim(0, 9) and "Moved.", "RuntimeError"),
    ],
)
def test_a_fault_of_ours_is_one_sentence_and_the_log_has_the_rest(show, name, caplog):
    panel = small(show)
    with caplog.at_level(logging.ERROR):
        answer = panel.answer()
    assert answer.kind == "fault" and "nothing you did is wrong" in answer.sentence
    assert name in answer.sentence and "\n" not in answer.sentence
    assert type(panel.trouble).__name__ == name
    assert "Traceback" in caplog.text and name in caplog.text


def test_what_moves_never_stays():
    """Every artist that `show` can add is gone afterwards, so the first picture comes back."""

    def show(axes, water):
        axes.plot([0, water], [0, 1])
        axes.bar([water], [0.5], width=40)
        axes.scatter([water], [0.2])
        axes.fill_between([0, water], [0, 0.3])
        axes.text(water, 0.9, f"{water} mL")
        axes.annotate("here", (water, 0.5), (10, 10), textcoords="offset points")
        axes.legend([axes.lines[-1]], ["water"])
        axes.figure.text(0.5, 0.5, "noted")
        return f"You pour {water} mL."

    panel = small(show)
    first = panel.answer(water=300)
    figure = panel._picture(1.0).figure
    count = len(figure.findobj())
    for water in (0, 250, 500, 20):
        panel.answer(water=water)
    assert panel.answer(water=300) == first
    assert len(figure.findobj()) == count
    assert not figure.axes[0].containers


def strangeness(panel):
    """How far, at most (of 255), the quick picture is from one that matplotlib paints at once."""
    quick = panel.answer()
    assert quick.kind == "answer", quick.sentence
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=panel.size, dpi=96)
        canvas = FigureCanvasAgg(figure)
        axes = panel._axes(figure) if panel._axes else figure.add_subplot()
        if panel._backdrop:
            panel._backdrop(axes)
        canvas.draw()
        figure.set_layout_engine("none")  # what moves does not shift the axes on the page
        for ax in figure.axes:
            ax.autoscale(False)
        panel._show(axes, **panel.start)
        canvas.draw()
        whole = Image.fromarray(np.asarray(canvas.buffer_rgba())[..., :3])
    # Seen from a step back: ours sets type on whole pixels and has but 256 colours.
    ours = Image.open(io.BytesIO(quick.picture)).convert("RGB")
    return np.abs(np.asarray(ours.reduce(6), float) - np.asarray(whole.reduce(6), float)).max()


@pytest.mark.parametrize("name", ["demo", *COURSE])
def test_the_quick_picture_is_the_true_picture(name):
    """Backdrop and moving parts painted apart look as if matplotlib had painted all at once."""
    assert strangeness(COURSE.get(name, demo)()) < 55


def test_a_panel_that_breaks_the_rules_is_found_out():
    def show(axes, water):
        axes.set_xlabel("Spirit poured")  # the label stands already: changed, not added
        return f"You pour {water} mL."

    assert strangeness(small(show)) > 55


@pytest.mark.parametrize("name", COURSE)
def test_every_control_moved_to_its_ends_gets_an_answer(name):
    panel = COURSE[name]()
    pictures = set()
    for control_name, control in panel.controls.items():
        if isinstance(control, Slider):
            ends = [control.low, control.high]
        elif isinstance(control, Choice):
            ends = list(control.options)
        elif isinstance(control, Tick):
            ends = [True, False]
        else:
            ends = [control.start] if control.kind == "text" else [control.low, control.high]
        answers = [panel.answer(**{control_name: control.read(end)}) for end in ends]
        for answer in answers:
            assert answer.kind in ("answer", "warning"), f"{control_name}: {answer.sentence}"
            assert "nan" not in answer.sentence.lower().split()
            pictures.add(answer.picture)
    assert len(pictures) > 1
    assert panel.trouble is None


# --- stills --------------------------------------------------------------------------------------


class _Tags(html.parser.HTMLParser):
    def __init__(self, text):
        super().__init__()
        self.found, self.text = {}, ""
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.found.setdefault(tag, dict(attributes))

    def handle_data(self, data):
        self.text += data


@pytest.mark.parametrize("name", ["demo", *COURSE])
def test_a_still_reads_on_paper(name, monkeypatch):
    monkeypatch.setenv("HERBCALC_STILLS", "1")
    panel = COURSE.get(name, demo)()
    bundle = panel._repr_mimebundle_()
    assert set(bundle) == {"text/plain", "text/html"}
    still = _Tags(bundle["text/html"])
    answer = panel.answer()
    assert still.found["img"]["alt"] == answer.alt
    for words in (panel.title, answer.sentence, panel.settings()):
        assert words in still.text
        assert words in bundle["text/plain"]
    for control in panel.controls.values():
        assert control.label in still.text
    head, data = still.found["img"]["src"].split(",")
    png = base64.b64decode(data)
    assert head == "data:image/png;base64" and len(png) < 48_000
    picture = Image.open(io.BytesIO(png))
    width, height = (int(still.found["img"][side]) for side in ("width", "height"))
    assert picture.width >= width
    assert picture.width / picture.height == pytest.approx(width / height, rel=0.01)


def test_words_in_a_still_cannot_become_html():
    panel = small(
        title="<b>Pouring</b>", alt='A "point" <here>.',
        controls=dict(name=Entry("Name", "<script>")), show=lambda axes, name: f"Hello {name}.",
    )
    still = panel.still()
    assert "<script>" not in still and "<b>" not in still
    assert _Tags(still).found["img"]["alt"] == 'A "point" <here>. Hello <script>.'


def test_a_live_panel_carries_its_still(monkeypatch):
    monkeypatch.delenv("HERBCALC_STILLS", raising=False)
    data, _ = small()._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in data
    assert "<figure" in data["text/html"]


# --- the kernel ----------------------------------------------------------------------------------

IN_KERNEL = """
from herbcalc.panel import *
kept = []
def keep(water):
    if water > 400: raise ValueError("The cup holds 400 mL.")
    kept.append(water)
    return f"Kept {water} mL."
def show(axes, water):
    axes.plot([water], [0.5], "o")
    return f"You pour {water} mL, {len(kept)} kept."
panel = Panel(
    title="Pouring", alt="A point.", size=(3, 2), show=show,
    controls=dict(water=Slider("Water", 0, 500, start=100, step=10, unit="mL"),
                  keep=Action("Keep", do=keep)),
    backdrop=lambda axes: axes.set(xlim=(0, 500), ylim=(0, 1)),
)
panel.widget.model_id
"""


async def _talk():
    """Ask a panel in a real kernel; everything it sends back, one list for each question."""
    manager, client = await start_new_async_kernel(kernel_name="python3")
    try:
        found = []

        def note(message):
            if message["msg_type"] == "execute_result":
                found.append(message["content"]["data"]["text/plain"].strip("'"))

        reply = await client.execute_interactive(IN_KERNEL, output_hook=note, timeout=60)
        assert reply["content"]["status"] == "ok", reply["content"]

        async def ask(data):
            content = {"comm_id": found[0], "data": data}
            message = client.session.msg("comm_msg", content)
            client.shell_channel.send(message)
            sent = []
            while True:
                message = await client.get_iopub_msg(timeout=30)
                if message["msg_type"] == "comm_msg":
                    sent.append((message["content"]["data"], message["buffers"]))
                elif message["content"].get("execution_state") == "idle":
                    return sent

        def values(water, asked):
            state = {"values": {"water": water}, "asked": asked}
            return {"method": "update", "state": state, "buffer_paths": []}

        def press(water, asked):
            data = values(water, asked)
            data["state"]["pressed"] = [{"name": "keep", "count": asked}]
            return data

        return [
            await ask(values(250, 1)), await ask(values(9000, 2)), await ask(press(300, 3)),
            await ask(press(450, 4)), await ask(press(450, 5)),
        ]
    finally:
        client.stop_channels()
        await manager.shutdown_kernel(now=True)


def test_picture_and_words_come_in_one_message():
    plain, clipped, kept, refused, again = asyncio.run(_talk())
    for sent in (plain, clipped, kept):
        assert len(sent) == 1  # not the values again, not the picture before its words
        (message, buffers), = sent
        assert message["buffer_paths"] == [["picture"]]
        assert bytes(buffers[0][:8]) == b"\x89PNG\r\n\x1a\n"
    state = plain[0][0]["state"]
    assert state["sentence"] == "You pour 250 mL, 0 kept." and state["answered"] == 1
    assert clipped[0][0]["state"]["sentence"] == "You pour 500 mL, 0 kept."
    assert kept[0][0]["state"]["sentence"] == "Kept 300 mL."
    state = refused[0][0]["state"]
    assert (state["sentence"], state["kind"]) == ("The cup holds 400 mL.", "warning")
    assert again[0][0]["state"] == {"answered": 5}  # even where nothing else has changed
