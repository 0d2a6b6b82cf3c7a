"""Inside the signal: two tones, the phase between them, and the radial a receiver makes of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any, cast

from vorlib.core.angles import format_direction, format_tenths
from vorlib.core.words import rounded, spoken_degrees
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene import at_station
from vorlib.exhibits.scene.figures import FigureImage, figures
from vorlib.signal import (
    AM_DEPTH,
    FM_DEPTH,
    FM_SWING_HZ,
    LEAST_SECONDS,
    CompositeSignal,
    Loss,
    SignalReading,
    StationKind,
    detected_tones,
    measure_radial,
    radial_bound_deg,
)
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.tones import UNITS_PER_DEG, ToneName, TonesScene, tones

__all__ = ["SignalState", "draw", "sentence", "signal"]

LEAST_DB, MOST_DB = -15.0, 40.0
MOST_SECONDS = 2.0
LEAST_DEG = 0.01  # a smaller error is told as less than this
DRAWN_EVERY = 16  # samples; a hundred points for a turn

AM_TONE, SUBCARRIER, BOTH = "AM tone", "subcarrier", "both"
SWITCHED_OFF = {
    "nothing": "",
    "the AM tone": AM_TONE,
    "the subcarrier (FM tone)": SUBCARRIER,
    "both": BOTH,
}


@dataclass(frozen=True)
class SignalState:
    """A radial, the station that sends it and how it is received.

    Attributes
    ----------
    radial_deg
        The radial the receiver is on.
    carrier_to_noise_db
        How far the carrier stands above the noise.
    seconds
        How long the receiver listens before it shows a radial.
    switched_off
        What the station does not send: "AM tone", "subcarrier", "both" or nothing.
    kind
        Conventional or doppler.
    seed
        Decides the noise.
    """

    radial_deg: float = 118.0
    carrier_to_noise_db: float = 20.0
    seconds: float = 1.0
    switched_off: str = ""
    kind: StationKind = StationKind.CONVENTIONAL
    seed: int = 1

    def __post_init__(self) -> None:
        if self.switched_off not in SWITCHED_OFF.values():
            allowed = ", ".join(filter(None, SWITCHED_OFF.values()))
            raise ValueError(
                f"switched_off must be empty or one of {allowed}, got {self.switched_off!r}"
            )
        _ = self.sent  # refuses what no station sends

    @property
    def sent(self) -> CompositeSignal:
        """The signal of the station on this radial."""
        return CompositeSignal(
            self.radial_deg,
            self.kind,
            self.carrier_to_noise_db,
            am_depth=0.0 if self.switched_off in (AM_TONE, BOTH) else AM_DEPTH,
            fm_depth=0.0 if self.switched_off in (SUBCARRIER, BOTH) else FM_DEPTH,
        )

    @cached_property
    def reading(self) -> SignalReading:
        """What the receiver makes of it."""
        return measure_radial(self._samples)

    @property
    def bound_deg(self) -> float:
        """The least standard error with which the radial could be measured."""
        return radial_bound_deg(self.carrier_to_noise_db, self.seconds)

    @property
    def moving(self) -> ToneName:
        """The tone that changes with the radial."""
        return "AM" if self.kind == StationKind.CONVENTIONAL else "FM"

    @cached_property
    def scene(self) -> TonesScene:
        """The tones as they are detected."""
        found = detected_tones(self._samples)
        am_lag, fm_lag = self.sent.lags_deg
        return TonesScene(
            am=tuple((found.am[::DRAWN_EVERY] / AM_DEPTH).tolist()),
            fm=tuple((found.fm[::DRAWN_EVERY] / FM_SWING_HZ).tolist()),
            am_crest_deg=am_lag if self.sent.am_depth else None,
            fm_crest_deg=fm_lag if self.sent.fm_depth else None,
            lag_deg=self.reading.radial_deg,
            moving=self.moving,
        )

    @cached_property
    def _samples(self) -> Any:
        return self.sent.samples(self.seconds, self.seed)


def draw(state: SignalState, theme: Theme) -> Picture:
    """Return the two tones with what was measured beside them."""
    return beside(tones(state.scene, theme), figures(_figures(state), theme), at_station.GAP)


def _figures(state: SignalState) -> tuple[FigureImage, ...]:
    reading = state.reading
    sent = FigureImage(
        "Radial sent", format_direction(state.radial_deg), f"by a {_kind(state)} station"
    )
    if reading.radial_deg is None:
        return (
            sent,
            FigureImage("Measured", "none", "nothing to compare", strong=True),
            FigureImage("Flag", "OFF", _lost(reading.loss)),
        )
    return (
        sent,
        FigureImage("Measured", format_tenths(reading.radial_deg), "AM lag behind FM", strong=True),
        FigureImage("Give or take", _degrees(_error(reading)), "standard error"),
        FigureImage("Least possible", _degrees(state.bound_deg), "by any method"),
        FigureImage("Flag", "none", "both tones are received"),
    )


def _kind(state: SignalState) -> str:
    """Return the kind of station as it stands in a sentence: Doppler was a man."""
    return state.kind.capitalize() if state.kind == StationKind.DOPPLER else str(state.kind)


def _degrees(error_deg: float) -> str:
    """Return an error to a tenth of a degree; below one degree to a hundredth."""
    if error_deg < LEAST_DEG:
        return f"less than {spoken_degrees(LEAST_DEG, 2)}"
    return spoken_degrees(error_deg, 1 if error_deg >= 1.0 else 2)


def _error(reading: SignalReading) -> float:
    return cast(float, reading.uncertainty_deg)


def _lost(loss: Loss) -> str:
    return {Loss.AM_TONE: "AM tone lost", Loss.FM_TONE: "FM tone lost"}.get(
        loss, "carrier lost" if loss == Loss.CARRIER else "both tones lost"
    )


def sentence(state: SignalState) -> str:
    """Say what is sent, what is measured, how exactly, and what the flag shows."""
    radial = format_direction(state.radial_deg)
    place = f"You are on the {radial} radial of a {_kind(state)} station"
    level = f"{state.seconds:.1f} s at {rounded(state.carrier_to_noise_db, 0)} dB above the noise"
    reading = state.reading
    if reading.radial_deg is None:
        why = "it is switched off" if state.switched_off else "the noise covers it"
        if reading.loss == Loss.BOTH_TONES:
            why = "they are switched off" if state.switched_off else "the noise covers them"
        return (
            f"{place}, but in {level} {reading.loss}: {why}. There are no two phases to compare, "
            "so there is no radial, and the flag reads OFF."
        )
    return (
        f"{place}: the AM tone lags the FM tone by {_lag_words(state.radial_deg)}, and the "
        f"{state.moving} tone is the one that moves with the radial. From {level} the receiver "
        f"measures {format_tenths(reading.radial_deg)}, give or take {_degrees(_error(reading))}; "
        f"no method could do better than {_degrees(state.bound_deg)}. No flag: both tones "
        "are received."
    )


def _lag_words(radial_deg: float) -> str:
    if format_direction(radial_deg) == "360":
        return "a whole turn, so their crests agree"
    return spoken_degrees(radial_deg)


def _dragged(state: SignalState, drag: Drag, theme: Theme) -> dict[str, Any]:
    moved_deg = round((drag.x - drag.x0) / UNITS_PER_DEG)
    return {"radial_deg": state.radial_deg + _sign(state) * moved_deg}


def _stepped(state: SignalState, steps: Steps) -> dict[str, Any]:
    return {"radial_deg": state.radial_deg + _sign(state) * (steps.right + steps.up)}


def _sign(state: SignalState) -> float:
    """Return 1 where moving the crest to the right makes the lag greater, -1 where less."""
    return 1.0 if state.moving == "AM" else -1.0


@exhibit(lesson="12", state=SignalState)
def signal(radial_deg: float = 118.0, **start: Any) -> Exhibit[SignalState]:
    """Return the exhibit of the signal: drag the crest of the tone that moves.

    Parameters
    ----------
    radial_deg
        The radial to start on.
    **start
        Other fields of `SignalState` to start from, such as ``seconds=0.1``.
    """
    return Exhibit(
        SignalState(radial_deg, **start),
        draw,
        sentence,
        [
            Number("radial_deg", "Radial", direction=True),
            Number("carrier_to_noise_db", "Above the noise", "dB", LEAST_DB, MOST_DB),
            Number("seconds", "Listening", "s", LEAST_SECONDS, MOST_SECONDS, 0.1, decimals=1),
            ChoiceControl("switched_off", "Switched off", SWITCHED_OFF),
            ChoiceControl(
                "kind", "Station", {kind.value.capitalize(): kind for kind in StationKind}
            ),
            Button("seed", "Listen again", lambda state: {"seed": state.seed + 1}),
        ],
        {"crest": Grip(_dragged, _stepped)},
    )
