"""How a panel works: controls, one picture, one plain sentence.

A panel is a function from numbers to what is drawn and said. To add one, write it in the module
of its topic under ``herbcalc/explore/``::

    from herbcalc.panel import Panel, Slider

    def _backdrop(axes):                    # once: limits, ticks, labels, curves that never move
        axes.set(xlim=(0, 1000), ylim=(0, 1), xlabel="Water [mL]")

    def _show(axes, water):                 # at every change: what moves, then the one sentence
        axes.plot([water], [0.5], "o")
        return f"You pour {water} mL of water."

    def pour():
        \"\"\"Pour water and watch the level.\"\"\"
        return Panel(
            title="Pouring water",
            controls=dict(water=Slider("Water", 0, 1000, start=200, step=10, unit="mL")),
            axes=lambda figure: figure.add_subplot(),
            backdrop=_backdrop,
            show=_show,
            alt="A point that moves to the right as water is poured.",
        )

A lesson raises it with ``explore.pour()``. ``show`` gets each control's value under the control's
name: a whole number where the steps are whole, else a float; a choice gives what stands behind
its label; an entry that may be left blank gives ``None``. A ``ValueError`` from ``show`` is told
to the student in place of the outcome and the last picture stays.

Two rules keep it fast and steady. ``show`` only *adds* to the axes (``plot``, ``text``, ``bar``,
``add_collection`` ...): the backdrop is painted once and copied, and at each change only what
``show`` added is painted over the copy and taken off again. And ``show`` never touches limits,
ticks or titles: what it adds lies above the backdrop.

With ``HERBCALC_STILLS=1`` in the environment a panel displays as a still picture of its start,
made by the same code; ``HERBCALC_SIZE=presenting`` starts every panel in the larger size.
"""

from __future__ import annotations

import base64
import contextlib
import dataclasses
import html
import inspect
import logging
import math
import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import KW_ONLY, dataclass
from pathlib import Path

import anywidget
import traitlets

from herbcalc.picture import Picture

__all__ = ["Action", "Answer", "Choice", "Entry", "Panel", "Slider", "Tick"]

_log = logging.getLogger(__name__)

NBSP = "\u00a0"  # keeps a number and its unit on one line
DPI = 96  # one inch of figure is one CSS inch on the page
STILL_SCALES = (1.5, 1.25, 1.0)  # the sharpest of these that stays small is saved
STILL_BYTES = 40_000
LARGER = 1.5  # the presenting size: picture and type by this much


# --- controls ------------------------------------------------------------------------------------


def _decimals(step: float) -> int:
    """Decimals needed to write multiples of `step` exactly (at most 6)."""
    for decimals in range(7):
        if math.isclose(step, round(step, decimals), rel_tol=1e-9, abs_tol=1e-12):
            return decimals
    return 6


def _with_unit(number: str, unit: str) -> str:
    return f"{number}{NBSP}{unit}" if unit else number


def _number(raw, label: str) -> float:
    try:
        number = float(raw)
    except (TypeError, ValueError):
        number = math.nan
    if not math.isfinite(number):
        raise ValueError(f"{label}: please give a number.")
    return number


def _check_label(label) -> None:
    if not isinstance(label, str) or not label.strip():
        raise ValueError("A control needs a label that says what it sets.")


def _check_limits(control) -> None:
    for name in ("low", "high"):
        value = getattr(control, name)
        if not isinstance(value, int | float) or not math.isfinite(value):
            raise ValueError(f"{control.label}: {name}={value!r} is not a number.")
    if not control.low < control.high:
        raise ValueError(
            f"{control.label}: the lower limit {control.low} must be below {control.high}."
        )


def _check_start(control) -> None:
    if not control.low <= control.start <= control.high:
        raise ValueError(
            f"{control.label}: the start {control.start} is outside "
            f"{control.low} to {control.high}."
        )


@dataclass(frozen=True)
class Slider:
    """A number to drag, from `low` to `high` in steps.

    Parameters
    ----------
    label : str
        What it sets, in the student's words.
    low, high : float
        Limits, in `unit`; `high` must lie on a step.
    start : float, optional
        Where it stands at first (default: `low`).
    step : float
        Smallest move, in `unit`.
    unit : str
        Shown with every value.
    decimals : int, optional
        Decimals shown (default: as many as `step` needs).
    help : str
        One short line under the control.

    Raises
    ------
    ValueError
        When the limits, the step or the start do not fit each other.

    Examples
    --------
    >>> Slider("Water", 0, 1000, start=200, step=10, unit="mL").read(214)
    210
    >>> Slider("Fill", 0, 1, start=0.75, step=0.05).read(2)
    1.0
    """

    label: str
    low: float
    high: float
    _: KW_ONLY
    start: float | None = None
    step: float = 1
    unit: str = ""
    decimals: int | None = None
    help: str = ""

    kind = "slider"

    def __post_init__(self):
        _check_label(self.label)
        _check_limits(self)
        if not (isinstance(self.step, int | float) and self.step > 0):
            raise ValueError(f"{self.label}: the step must be a number above zero.")
        steps = (self.high - self.low) / self.step
        if steps < 0.5 or not math.isclose(steps, round(steps), rel_tol=1e-6):
            raise ValueError(
                f"{self.label}: steps of {self.step} from {self.low} never land on {self.high}."
            )
        if self.decimals is None:
            decimals = max(_decimals(self.step), _decimals(self.low))
            object.__setattr__(self, "decimals", decimals)
        if self.start is None:
            object.__setattr__(self, "start", self.low)
        _check_start(self)
        object.__setattr__(self, "start", self.read(self.start))

    def read(self, raw) -> float:
        """The value for `raw`: a number within the limits, on the nearest step."""
        steps = round((_number(raw, self.label) - self.low) / self.step)
        value = min(max(self.low + steps * self.step, self.low), self.high)
        grid = max(_decimals(self.step), _decimals(self.low))
        return round(value) if grid == 0 else round(float(value), grid)

    def raw(self, value):
        """What the page holds for `value`."""
        return value

    def words(self, value) -> str:
        """`value` as the student reads it, with its unit."""
        return _with_unit(f"{value:.{self.decimals}f}", self.unit)

    def spec(self) -> dict:
        """What the page needs to know to draw this control."""
        fields = ("label", "low", "high", "step", "unit", "decimals", "help")
        return {"kind": self.kind} | {name: getattr(self, name) for name in fields}


@dataclass(frozen=True)
class Choice:
    """One of several, from a list that folds down.

    Parameters
    ----------
    label : str
        What it sets.
    options : sequence of str, mapping of label to value, or function returning either
        What there is to choose. A function is asked when the panel is made, so that a student's
        own herbs appear.
    start : str, optional
        Label of the first choice (default: the first of the list).
    help : str
        One short line under the control.

    Examples
    --------
    >>> Choice("Herb", {"dried": 0.1, "fresh": 0.8}, start="fresh").read("dried")
    0.1
    """

    label: str
    options: Sequence | Mapping | Callable
    _: KW_ONLY
    start: str | None = None
    help: str = ""

    kind = "choice"

    def __post_init__(self):
        _check_label(self.label)
        if not callable(self.options):
            self._settle(self.options)

    def _settle(self, options) -> None:
        if isinstance(options, Mapping):
            options = {str(label): value for label, value in options.items()}
        else:
            options = {str(value): value for value in options}
        if not options:
            raise ValueError(f"{self.label}: there is nothing to choose from.")
        start = next(iter(options)) if self.start is None else str(self.start)
        if start not in options:
            raise ValueError(
                f"{self.label}: the start {start!r} is not among {', '.join(options)}."
            )
        object.__setattr__(self, "options", options)
        object.__setattr__(self, "start", start)

    def settled(self) -> Choice:
        """This choice with its list asked for and fixed."""
        if not callable(self.options):
            return self
        return dataclasses.replace(self, options=self.options())

    def read(self, raw):
        """The value behind the label `raw`."""
        if str(raw) not in self.options:
            raise ValueError(f"{self.label}: {raw!r} is not in the list.")
        return self.options[str(raw)]

    def raw(self, value):
        """The label in front of `value`."""
        if isinstance(value, str) and value in self.options:
            return value
        for label, behind in self.options.items():
            if behind is value or behind == value:
                return label
        raise ValueError(f"{self.label}: {value!r} is not in the list.")

    def words(self, value) -> str:
        """The label the student reads."""
        return self.raw(value)

    def spec(self) -> dict:
        """What the page needs to know to draw this control."""
        return {
            "kind": self.kind, "label": self.label, "help": self.help,
            "options": list(self.options),
        }


@dataclass(frozen=True)
class Entry:
    """A number or a short text to type.

    Parameters
    ----------
    label : str
        What to type.
    start : float, str or None
        A number makes a number entry (with `low` and `high`), a text a text entry; None a number
        entry that is blank at first and may be left blank (`show` then gets None).
    low, high : float
        Limits of a number entry, in `unit`.
    step : float
        What the arrow keys add, in `unit`; the typed number need not lie on a step.
    unit : str
        Shown beside it.
    decimals : int, optional
        Decimals a typed number keeps (default: as many as `step` needs).
    length : int
        Longest text kept, in characters.
    help : str
        One short line under the control.

    Examples
    --------
    >>> Entry("Weight of the level cup", None, low=0, high=500, unit="g").read("23,5")
    24
    >>> Entry("Name of the herb", "my mint", length=10).read("  lemon balm of the garden ")
    'lemon balm'
    """

    label: str
    start: float | str | None = None
    _: KW_ONLY
    low: float | None = None
    high: float | None = None
    step: float = 1
    unit: str = ""
    decimals: int | None = None
    length: int = 60
    help: str = ""

    def __post_init__(self):
        _check_label(self.label)
        if self.kind == "text":
            if not 0 < self.length <= 1000:
                raise ValueError(f"{self.label}: a text holds 1 to 1000 characters.")
        else:
            _check_limits(self)
            if not self.step > 0:
                raise ValueError(f"{self.label}: the step must be above zero.")
            if self.decimals is None:
                object.__setattr__(self, "decimals", _decimals(self.step))
            if self.start is not None:
                _check_start(self)
        object.__setattr__(self, "start", self.read(self.start))

    @property
    def kind(self) -> str:
        """``"text"`` or ``"number"``."""
        return "text" if isinstance(self.start, str) else "number"

    @property
    def blank(self) -> bool:
        """Whether it may be left blank."""
        return self.start is None

    def read(self, raw):
        """The value for what was typed: a number within the limits, a text, or None if blank."""
        if self.kind == "text":
            return " ".join(str("" if raw is None else raw).split())[: self.length].strip()
        if isinstance(raw, str):
            raw = raw.strip().replace(",", ".")
        if self.blank and raw in (None, ""):
            return None
        value = min(max(_number(raw, self.label), self.low), self.high)
        return round(value) if self.decimals == 0 else round(float(value), self.decimals)

    def raw(self, value):
        """What the page holds for `value`."""
        return "" if value is None else value

    def words(self, value) -> str:
        """`value` as the student reads it, with its unit."""
        if self.kind == "text":
            return value
        if value is None:
            return "not filled in"
        return _with_unit(f"{value:.{self.decimals}f}", self.unit)

    def spec(self) -> dict:
        """What the page needs to know to draw this control."""
        fields = ["label", "help"]
        fields += ["length"] if self.kind == "text" else [
            "low", "high", "step", "unit", "decimals", "blank",
        ]
        return {"kind": self.kind} | {name: getattr(self, name) for name in fields}


@dataclass(frozen=True)
class Tick:
    """A box to tick: yes or no.

    Examples
    --------
    >>> Tick("Show the simple difference", start=True).words(True)
    'yes'
    """

    label: str
    _: KW_ONLY
    start: bool = False
    help: str = ""

    kind = "tick"

    def __post_init__(self):
        _check_label(self.label)
        if not isinstance(self.start, bool):
            raise ValueError(f"{self.label}: a tick starts as True or False.")

    def read(self, raw) -> bool:
        """Whether it is ticked."""
        return bool(raw)

    def raw(self, value):
        """What the page holds for `value`."""
        return bool(value)

    def words(self, value) -> str:
        """``yes`` or ``no``."""
        return "yes" if value else "no"

    def spec(self) -> dict:
        """What the page needs to know to draw this control."""
        return {"kind": self.kind, "label": self.label, "help": self.help}


@dataclass(frozen=True)
class Action:
    """A button. `do` gets the other controls' values by name and returns one sentence.

    `do` may name only the values it needs, or take ``**values``. The picture is drawn afresh
    afterwards, so that what the action changed (a weighing kept, say) is seen at once.
    """

    label: str
    do: Callable
    _: KW_ONLY
    help: str = ""

    kind = "action"

    def __post_init__(self):
        _check_label(self.label)
        if not callable(self.do):
            raise ValueError(f"{self.label}: do= must be a function that returns a sentence.")

    def spec(self) -> dict:
        """What the page needs to know to draw this control."""
        return {"kind": self.kind, "label": self.label, "help": self.help}


# --- the panel -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class Answer:
    """What a panel shows for one set of values.

    Attributes
    ----------
    picture : bytes
        PNG.
    sentence : str
        The outcome, or why there is none.
    alt : str
        Words for who cannot see the picture.
    kind : str
        ``"answer"``, ``"warning"`` (the values make no sense together) or ``"fault"`` (ours).
    """

    picture: bytes
    sentence: str
    alt: str
    kind: str


class Panel:
    """Controls, a picture and one plain sentence (see the top of this module).

    Parameters
    ----------
    title : str
        Heading of the panel.
    controls : dict of str to Slider, Choice, Entry, Tick or Action
        In the order they are tabbed through; the names are `show`'s arguments.
    show : function(axes, **values) -> str
        Adds what moves to the axes and returns the sentence.
    alt : str
        What the picture shows, in one sentence.
    size : (float, float)
        Width and height of the picture in inches of 96 pixels.
    axes : function(figure) -> axes, optional
        Lays out the axes, once; whatever it returns goes to `backdrop` and `show`.
    backdrop : function(axes), optional
        Paints, once, everything that never moves.

    Raises
    ------
    ValueError
        When the controls and `show` do not fit each other.

    Examples
    --------
    >>> panel = Panel(
    ...     title="Pouring", alt="An empty picture.", size=(2, 1),
    ...     controls=dict(water=Slider("Water", 0, 500, start=100, step=10, unit="mL")),
    ...     show=lambda axes, water: f"You pour {water} mL.",
    ... )
    >>> panel.answer(water=250).sentence
    'You pour 250 mL.'
    """

    def __init__(
        self, *, title, controls, show, alt, size=(9, 4.2), axes=None, backdrop=None,
    ):
        if not (isinstance(title, str) and title.strip() and isinstance(alt, str) and alt.strip()):
            raise ValueError("A panel needs a title and an alt text for its picture.")
        if not all(1 <= side <= 16 for side in size):
            raise ValueError(f"{title}: a picture measures 1 to 16 inches a side, not {size}.")
        self.title, self.alt, self.size = title, alt, tuple(size)
        self.controls, self.actions = {}, {}
        for name, control in controls.items():
            if not isinstance(control, Slider | Choice | Entry | Tick | Action):
                raise ValueError(f"{title}: {name} is no Slider, Choice, Entry, Tick or Action.")
            if isinstance(control, Choice):
                control = control.settled()
            kept = self.actions if isinstance(control, Action) else self.controls
            kept[name] = control
        self._order = list(controls)
        self._check_arguments(show)
        self._show, self._axes, self._backdrop = show, axes, backdrop
        self._pictures = {}
        self._widget = None
        self.trouble = None  # the last exception that was our own fault

    def _check_arguments(self, show):
        parameters = list(inspect.signature(show).parameters.values())[1:]
        if any(parameter.kind is parameter.VAR_KEYWORD for parameter in parameters):
            return
        asked = {parameter.name for parameter in parameters}
        needed = {p.name for p in parameters if p.default is p.empty}
        given = set(self.controls)
        if needed - given:
            raise ValueError(
                f"{self.title}: show asks for {', '.join(sorted(needed - given))}, "
                "but there is no such control."
            )
        if given - asked:
            raise ValueError(
                f"{self.title}: show does not take the control "
                f"{', '.join(sorted(given - asked))}."
            )

    # values

    @property
    def start(self) -> dict:
        """The values the panel starts with, as `show` gets them."""
        return self.read({})

    def raw(self, values: Mapping | None = None) -> dict:
        """`values` (default: the start) as the page holds them."""
        values = self.start if values is None else values
        return {name: self.controls[name].raw(value) for name, value in values.items()}

    def read(self, raw: Mapping) -> dict:
        """Values for `show` from what the page sent; what is missing stands at its start."""
        return {
            name: control.read(raw.get(name, control.start))
            for name, control in self.controls.items()
        }

    def settings(self, values: Mapping | None = None) -> str:
        """`values` (default: the start) in one line, each with its unit."""
        values = self.start if values is None else values
        return " \u00b7 ".join(
            f"{control.label} {control.words(values[name])}"
            for name, control in self.controls.items()
        )

    # answers

    def answer(self, scale: float = 1.0, **values) -> Answer:
        """Picture and sentence for `values`; controls not named stand at their start."""
        unknown = set(values) - set(self.controls)
        if unknown:
            raise ValueError(f"{self.title}: no control is called {', '.join(sorted(unknown))}.")
        return self._answer(self.raw(values), scale)

    def _answer(self, raw: Mapping, scale: float, last: bytes | None = None) -> Answer:
        picture = self._picture(scale)
        image, kind = None, "answer"
        try:
            image, sentence = picture.paint(self._show, self.read(raw))
            if not isinstance(sentence, str) or not sentence.strip():
                raise TypeError("show returned no sentence")
        except ValueError as error:
            kind, sentence = "warning", str(error)
        except Exception as error:
            kind, sentence = "fault", self._own_fault(error)
        if kind != "answer":
            image = last or picture.backdrop()
        sentence = " ".join(sentence.split())
        return Answer(image, sentence, f"{self.alt} {sentence}", kind)

    def _own_fault(self, error: Exception) -> str:
        self.trouble = error
        _log.error("panel %r: %s", self.title, error, exc_info=error)
        return (
            "This panel has a fault of its own: nothing you did is wrong. "
            f"Please tell your teacher: {type(error).__name__}, {error}."
        )

    def _picture(self, scale: float) -> Picture:
        if scale not in self._pictures:
            self._pictures.clear()  # one at a time: they are large
            self._pictures[scale] = Picture(self.size, self._axes, self._backdrop, DPI * scale)
        return self._pictures[scale]

    def press(self, name: str, values: Mapping) -> tuple[str, str]:
        """Do the action `name` with `values` as `show` gets them; its sentence and kind."""
        action = self.actions[name]
        parameters = list(inspect.signature(action.do).parameters.values())
        wanted = {parameter.name for parameter in parameters}
        if any(parameter.kind is parameter.VAR_KEYWORD for parameter in parameters):
            wanted = set(self.controls)
        try:
            sentence = action.do(**{key: values[key] for key in wanted & set(values)})
            if not isinstance(sentence, str) or not sentence.strip():
                raise TypeError(f"{action.label} returned no sentence")
            return sentence, "answer"
        except ValueError as error:
            return str(error), "warning"
        except Exception as error:
            return self._own_fault(error), "fault"

    # display

    def still(self, sharp: bool = True) -> str:
        """The starting state as HTML that needs no script, `sharp` enough for paper."""
        answer = self.answer()
        image = answer.picture
        for scale in STILL_SCALES if sharp else ():
            picture = Picture(self.size, self._axes, self._backdrop, DPI * scale, effort=9)
            with contextlib.suppress(Exception):  # `answer` has said what is wrong
                image, _ = picture.paint(self._show, self.start)
            if len(image) <= STILL_BYTES:
                break
        width, height = self._pixels()
        picture = base64.b64encode(image).decode("ascii")
        say = html.escape
        return (
            f'<figure class="herbcalc-still"><img src="data:image/png;base64,{picture}" '
            f'alt="{say(answer.alt)}" width="{width}" height="{height}">'
            f"<figcaption><p><strong>{say(self.title)}.</strong> {say(answer.sentence)}</p>"
            f"<p><small>{say(self.settings())}</small></p></figcaption></figure>"
        )

    def _pixels(self) -> tuple[int, int]:
        return round(self.size[0] * DPI), round(self.size[1] * DPI)

    @property
    def widget(self):
        """The live front end (made when first asked for)."""
        if self._widget is None:
            self._widget = _Front(self)
        return self._widget

    def _repr_mimebundle_(self, **kwargs):
        stills = os.environ.get("HERBCALC_STILLS") == "1"
        bundle = {
            "text/plain": f"{self.title}: {self.answer().sentence}\n{self.settings()}",
            "text/html": self.still(sharp=stills),
        }
        if stills:
            return bundle
        data, metadata = self.widget._repr_mimebundle_(**kwargs)
        return data | bundle, metadata

    def __repr__(self):
        return f"Panel({self.title!r})"


class _Front(anywidget.AnyWidget):
    """The panel on the page: what is sent and what comes back."""

    _esm = Path(__file__).with_name("panel.js")
    _css = Path(__file__).with_name("panel.css")

    spec = traitlets.Dict().tag(sync=True)
    values = traitlets.Dict().tag(sync=True, echo_update=False)  # from the page
    asked = traitlets.Int(0).tag(sync=True, echo_update=False)  # counts the page's questions
    pressed = traitlets.List().tag(sync=True, echo_update=False)  # the last buttons, counted
    scale = traitlets.Float(1.0).tag(sync=True, echo_update=False)  # pixels per CSS pixel
    answered = traitlets.Int(0).tag(sync=True)  # the last question answered
    picture = traitlets.Bytes().tag(sync=True)
    sentence = traitlets.Unicode().tag(sync=True)
    alt = traitlets.Unicode().tag(sync=True)
    kind = traitlets.Unicode("answer").tag(sync=True)

    def __init__(self, panel: Panel):
        self._panel = panel
        answer = panel.answer()
        everything = panel.controls | panel.actions
        width, height = panel._pixels()
        super().__init__(
            spec={
                "title": panel.title, "width": width, "height": height, "larger": LARGER,
                "size": "presenting" if os.environ.get("HERBCALC_SIZE") == "presenting" else "",
                "start": panel.raw(),
                "controls": [{"name": n} | everything[n].spec() for n in panel._order],
            },
            values=panel.raw(), **dataclasses.asdict(answer),
        )
        self._handled = 0  # presses, by their count
        self.observe(self._asked, "asked")

    def _asked(self, change):
        said = None
        for press in self.pressed:
            if press["count"] > self._handled:
                self._handled = press["count"]
                said = self._press(press["name"])
        answer = self._answer(self.values)
        if said:
            sentence, kind = said
            alt = f"{self._panel.alt} {sentence}"
            answer = dataclasses.replace(answer, sentence=sentence, kind=kind, alt=alt)
        self._tell(answer, self.asked)

    def _press(self, name):
        try:
            return self._panel.press(name, self._panel.read(self.values))
        except ValueError as error:  # what the page sent is no value
            return str(error), "warning"

    def _answer(self, raw) -> Answer:
        scale = min(max(round(self.scale, 4), 0.2), 4.0)
        return self._panel._answer(raw, scale, last=self.picture)

    def _tell(self, answer: Answer, asked: int):
        with self.hold_sync():  # one message: picture and words always belong together
            self.set_trait("picture", answer.picture)
            self.set_trait("sentence", answer.sentence)
            self.set_trait("alt", answer.alt)
            self.set_trait("kind", answer.kind)
            self.set_trait("answered", asked)
