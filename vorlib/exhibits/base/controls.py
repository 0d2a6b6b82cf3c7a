"""What a reader changes an exhibit with: numbers, choices, switches and buttons."""

from __future__ import annotations

import math
import re
from collections import deque
from collections.abc import Callable, Mapping
from typing import Any

import ipywidgets as widgets

from vorlib.core.angles import wrap_360
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.messages.coalesce import LatestOnly

__all__ = ["Button", "ChoiceControl", "DropDown", "Number", "Switch"]

ECHO, FIGURES = 1e-6, 9  # decimals to which the page rounds what a slider reports
STOPS_KNOWN = 32
# A number as people type it, perhaps with a unit behind it.
TYPED = re.compile(r"([+-]?[\d.,]+(?:e[+-]?\d+)?)\s*(°|[a-z]*)", re.IGNORECASE)
ABBREVIATED = {"degrees": ("°",), "feet": ("ft",), "knots": ("kt", "kts")}
THOUSANDS = re.compile(r"[+-]?\d{1,3}(,\d{3})+")


def _number(value: Any, unit: str, *, whole: bool) -> float:
    """Return the number that is meant by an entry, such as 090°, 12 NM or 12,5; nan for none.

    Parameters
    ----------
    value
        What was entered.
    unit
        The only one that may be entered with it, or the beginning of its name.
    whole
        Whether whole numbers are expected: then a comma only sets thousands off.
    """
    words = str(value).strip()
    typed = TYPED.fullmatch(words)
    if typed is not None:
        given = typed[2].lower()
        if not unit.lower().startswith(given) and given not in ABBREVIATED.get(unit, ()):
            return math.nan
        words = typed[1]
        grouped = THOUSANDS.fullmatch(words) if whole else None
        words = words.replace(",", "") if grouped else words if whole else words.replace(",", ".")
    try:
        return float(words)
    except ValueError:
        return math.nan


class Number(Control):
    """A quantity, moved with a slider or typed into the box beside it.

    A direction may be typed as any finite number: 0, 720 and -360 all mean 360.

    Parameters
    ----------
    field, label, unit
        The field's name; what to call it; its unit in words.
    low, high
        Least and greatest value allowed; unused for a direction.
    step
        What one arrow key changes on the slider.
    decimals
        Figures shown after the decimal point.
    direction
        Whether this is a direction, in (0, 360].
    optional
        Whether nothing may be entered, which is None.
    feeds
        As for any control.
    """

    row_classes = "vorlib-control-row vorlib-quantity"
    slider_type: type[widgets.Widget] = widgets.FloatSlider

    def __init__(
        self,
        field: str,
        label: str,
        unit: str = "degrees",
        low: float = 1.0,
        high: float = 360.0,
        step: float = 1.0,
        *,
        decimals: int = 0,
        direction: bool = False,
        optional: bool = False,
        feeds: tuple[str, ...] = (),
    ) -> None:
        self.label, self.unit, self.low, self.high = label, unit, low, high
        self.decimals, self.direction, self.optional = decimals, direction, optional
        hint = f"{label}, {unit}"
        self.slider = plain(
            self.slider_type,
            description=label,
            min=low,
            max=high,
            step=step,
            readout=False,
            tooltip=hint,
        )
        # A text box, so that an entry that is not a number can be answered rather than swallowed.
        # Its label is for screen readers alone: the style sheet hides it.
        self.box = plain(
            widgets.Text,
            description=hint,
            continuous_update=False,
            tooltip=hint,
            classes="vorlib-number",
        )
        unit_label = plain(widgets.Label, unit, classes="vorlib-unit")
        super().__init__(field, self.slider, self.box, unit_label)
        self.feeds = feeds
        self._stops = deque([math.inf], maxlen=STOPS_KNOWN)  # that the slider has shown
        self._latest = LatestOnly(lambda value: self.ask({field: value}))
        self.slider.observe(self._slid, "value")
        self.box.observe(self._entered, "value")

    def _slid(self, change: Mapping[str, Any]) -> None:
        # A browser echoes what it is shown, with its own last figure; on a slow machine when the
        # slider shows something else already, which the echo must not set back.
        value, shown = change["new"], self._stops[-1]
        if self._showing or abs(value - shown) <= ECHO:
            return
        if any(0.0 < abs(value - stop) <= ECHO for stop in self._stops):
            with self._quietly():
                self.slider.value = shown
            return
        self._stops.append(round(value, FIGURES))
        self._latest(value)

    @property
    def _allowed(self) -> str:
        if self.direction:
            return "a direction in degrees, such as 40 or 270"
        return f"a number from {self.low:g} to {self.high:g} {self.unit}"

    def read(self, value: Any) -> float | None:
        """Return the number that was entered, a direction wrapped into (0, 360].

        Raises
        ------
        ValueError
            If it is not a finite number or not in range; the message says what is allowed.
        """
        if self.optional and value in (None, ""):
            return None
        number = _number(value, self.unit, whole=not self.decimals)
        rounded = round(number, self.decimals) if math.isfinite(number) else number
        if abs(number - rounded) < ECHO:
            number = rounded
        given = str(value).strip() or "an empty entry"
        if not math.isfinite(number):
            raise ValueError(f"{self.label}: {given} is not a number. Enter {self._allowed}.")
        if self.direction:
            return float(wrap_360(number))
        if not self.low <= number <= self.high:
            raise ValueError(f"{self.label}: {given} is out of range. Enter {self._allowed}.")
        return number

    def format(self, value: float | None) -> str:
        """Return a value as the box shows it: directions with three figures before the point."""
        if value is None:
            return ""
        if not self.direction:
            return f"{value:.{self.decimals}f}"
        width = 3 + (self.decimals + 1 if self.decimals else 0)
        return f"{wrap_360(round(value, self.decimals)):0{width}.{self.decimals}f}"

    def _show(self, value: float | None) -> None:
        if value is not None and not self._latest.waiting:  # else it would pull back from the hand
            stop = self._stop_near(value)
            if abs(stop - self.slider.value) > ECHO:
                self.slider.value = stop
            if stop != self._stops[-1]:
                self._stops.append(stop)
        self.box.value = self.format(value)

    def _stop_near(self, value: float) -> float:
        """Return the slider's stop next to a value.

        A browser that is shown anything else goes to the stop by itself, and reports that as if a
        hand had moved the slider.
        """
        slider = self.slider
        stops = round((value - slider.min) / slider.step)
        return float(min(round(slider.min + stops * slider.step, FIGURES), slider.max))


class DropDown(widgets.Dropdown):  # type: ignore[misc]
    """A drop-down list; when it has become shorter, a choice of what is gone is none."""

    def set_state(self, sync_data: dict[str, Any]) -> None:
        """Take what a page says; where it chose what is gone, show it again what there is."""
        if (sync_data.get("index") or 0) >= len(self.options):
            self.send_state("index")
        else:
            super().set_state(sync_data)


class ChoiceControl(Control):
    """One of several, from a drop-down list.

    Parameters
    ----------
    options
        What the list says, and the value each entry stands for.
    consequences
        From the state and the value chosen: what else changes with it.
    """

    def __init__(
        self,
        field: str,
        label: str,
        options: Mapping[str, Any],
        consequences: Callable[[Any, Any], Changes] = lambda state, value: {},
    ) -> None:
        self.label, self.options = label, dict(options)
        self.list = plain(DropDown, description=label, options=list(self.options.items()))
        super().__init__(field, self.list)
        self.consequences = consequences
        self.list.observe(self._entered, "value")

    def read(self, value: Any) -> Any:
        """Return the value if it is one of the options, or raise ValueError that lists them."""
        if value not in self.options.values():
            allowed = ", ".join(str(option) for option in self.options.values())
            raise ValueError(f"{self.label}: {value!r} is not one of {allowed}.")
        return value

    def _show(self, value: Any) -> None:
        self.list.value = value


class Switch(Control):
    """Something on or off."""

    slot = "switches"

    def __init__(self, field: str, label: str) -> None:
        self.label = label
        self.box = plain(widgets.Checkbox, description=label, indent=False)
        super().__init__(field, self.box)
        self.box.observe(self._entered, "value")

    def read(self, value: Any) -> bool:
        """Return the value as a truth value."""
        return bool(value)

    def _show(self, value: bool) -> None:
        self.box.value = value


class Button(Control):
    """Something to press.

    Parameters
    ----------
    field
        One of the fields changed: messages about it appear beside the button.
    press
        Called with the state when pressed; returns the changes to make.
    """

    slot = "switches"

    def __init__(self, field: str, label: str, press: Callable[[Any], Changes]) -> None:
        self.label = label
        self.button = plain(widgets.Button, description=label)
        super().__init__(field, self.button)
        self.button.on_click(lambda _: self.ask(press))

    def _show(self, value: Any) -> None:
        pass
