"""A VOR station: its place, its radials and its frequency."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Any, overload

from numpy.typing import ArrayLike

from vorlib.core.angles import fold_180, fold_360
from vorlib.core.arguments import ArgumentError, FloatArray, N, finite, within
from vorlib.core.scalars import namespace
from vorlib.core.units import FEET_PER_NM
from vorlib.earth.geodesic import Inverse, Position, Positions, between, direct
from vorlib.earth.variation import variation_deg
from vorlib.vor.coverage import check_service

# The VOR band, and the even tenths in its lower part, which VORs share with localizers: Instrument
# Flying Handbook (FAA-H-8083-15B), chapter 9, VOR components (read in a copy). The spacing: ICAO
# Annex 10, volume I, 3.3.2 (read in a quotation).
LOWEST_MHZ, HIGHEST_MHZ, CHANNEL_MHZ = 108.0, 117.95, 0.05
VOR_ONLY_MHZ = 112.0
IDENT = re.compile(r"[A-Z]{1,4}")


def check_frequency(frequency_mhz: float) -> float:
    """Return the frequency on its 50 kHz channel, or raise ValueError that names the VOR's ones.

    Below 112 MHz the odd tenths, and the channels 50 kHz above them, are localizers'.
    """
    mhz = within("frequency_mhz", frequency_mhz, LOWEST_MHZ, HIGHEST_MHZ, "MHz")
    channel = round(mhz / CHANNEL_MHZ)
    if abs(mhz - channel * CHANNEL_MHZ) > 1e-4:
        raise ArgumentError(
            f"frequency_mhz must be a whole multiple of 0.05 MHz, got {mhz:g}",
            argument="frequency_mhz",
        )
    if mhz < VOR_ONLY_MHZ and channel // 2 % 2:
        raise ArgumentError(
            "frequency_mhz below 112 MHz must be an even tenth, or 0.05 above one: "
            f"got {mhz:g}, a localizer's channel",
            argument="frequency_mhz",
        )
    return round(channel * CHANNEL_MHZ, 2)


@dataclass(frozen=True)
class _Station:
    ident: str
    position: Position
    declination_deg: float
    frequency_mhz: float
    name: str
    service: str
    on_the_air: bool


class Station(_Station):
    """A VOR station.

    Parameters
    ----------
    ident
        One to four capital letters, sent in Morse.
    position
        One place; its altitude is the elevation of the antenna.
    declination_deg
        Angle from true north to the station's zero radial, positive east. It is set when the
        station is aligned and stays while today's variation drifts.
    frequency_mhz
        108.00 to 117.95 MHz, a multiple of 50 kHz; below 112 MHz not a localizer's channel.
    name
        The spoken name; the ident if none is given.
    service
        Standard service volume: T, L, H, VL or VH.
    on_the_air
        False when the station is shut down.

    Raises
    ------
    ValueError
        If an argument is out of range; the message names it, its value and what is allowed.
    """

    def __init__(
        self,
        ident: str,
        position: Position,
        declination_deg: float,
        frequency_mhz: float,
        name: str = "",
        service: str = "L",
        on_the_air: bool = True,
    ) -> None:
        if not isinstance(ident, str) or not IDENT.fullmatch(ident):
            raise ArgumentError(
                f"ident must be one to four capital letters, got {ident!r}", argument="ident"
            )
        if position.shape != ():
            raise ArgumentError(
                f"position must be one place, got shape {position.shape}", argument="position"
            )
        declination = within("declination_deg", declination_deg, -180.0, 180.0, "degrees")
        if not isinstance(declination, float):
            raise ArgumentError(
                f"declination_deg must be one number, got shape {declination.shape}",
                argument="declination_deg",
            )
        frequency = check_frequency(frequency_mhz)
        check_service(service)
        super().__init__(
            ident, position, declination, frequency, name or ident, service, on_the_air
        )

    def inverse(self, there: Position[N]) -> Inverse[N]:
        """Return the geodesic from the station to *there*: NM, and true azimuth at either end."""
        return between(self.position, there)

    def true_azimuth_deg(self, there: Position[N]) -> N:
        """Return the true azimuth from the station to *there*, in (0, 360]."""
        return self.inverse(there).true_azimuth_deg

    def radial_deg(self, there: Position[N]) -> N:
        """Return the radial *there* lies on, in (0, 360]: true azimuth less station declination.

        Exactly over the station there is no radial; the azimuth counts as 360 true there.
        Source: "station declination" of the FAA's glossary (read in a copy); checked against
        published radials in the tests.
        """
        return fold_360(self.true_azimuth_deg(there) - self.declination_deg)

    @overload
    def radial_of_azimuth_deg(self, true_azimuth_deg: float) -> float: ...
    @overload
    def radial_of_azimuth_deg(self, true_azimuth_deg: ArrayLike) -> FloatArray: ...
    def radial_of_azimuth_deg(self, true_azimuth_deg: ArrayLike) -> float | FloatArray:
        """Return the radial that runs along a true azimuth from the station, in (0, 360]."""
        return fold_360(finite("true_azimuth_deg", true_azimuth_deg) - self.declination_deg)

    def distance_nm(self, there: Position[N]) -> N:
        """Return the distance over the ground from the station to *there*, in NM."""
        return self.inverse(there).distance_nm

    def height_ft(self, there: Position[N]) -> N:
        """Return the height of *there* above the station's antenna, in feet; negative below."""
        return there.altitude_ft - self.position.altitude_ft

    def slant_range_nm(self, there: Position[N]) -> N:
        """Return the straight distance through the air to *there*, in NM, as DME measures it.

        Right-angled triangle of distance over the ground and height above the antenna, as in
        ICAO Doc 8168, volume II, part I, section 4, chapter 3, appendix C (read in a copy of
        2006); the earth's curve is left out.
        """
        distance, height = self.distance_nm(there), self.height_ft(there) / FEET_PER_NM
        slant_range: N = namespace(distance, height).hypot(distance, height)
        return slant_range

    @overload
    def position_on(
        self, radial_deg: float, distance_nm: float, altitude_ft: float = 0.0
    ) -> Position: ...
    @overload
    def position_on(
        self, radial_deg: ArrayLike, distance_nm: ArrayLike, altitude_ft: ArrayLike = 0.0
    ) -> Positions: ...
    def position_on(
        self, radial_deg: ArrayLike, distance_nm: ArrayLike, altitude_ft: ArrayLike = 0.0
    ) -> Position[Any]:
        """Return the place on a radial at a distance over the ground, at an altitude in feet."""
        radial = finite("radial_deg", radial_deg)
        return direct(self.position, radial + self.declination_deg, distance_nm).at_altitude(
            altitude_ft
        )

    def magnetic_bearing_deg(self, there: Position[N], on: date) -> N:
        """Return the magnetic bearing from the station to *there* by the variation of a day.

        In (0, 360]. Not the radial, unless the station was set to that very variation.
        """
        return fold_360(self.true_azimuth_deg(there) - variation_deg(self.position, on))

    def declination_drift_deg(self, on: date) -> float:
        """Return station declination less the variation of a day, in degrees, positive east.

        It is what must be added to a radial to get the day's magnetic bearing from the station.
        """
        return fold_180(self.declination_deg - variation_deg(self.position, on))
