"""Put deliberate faults into the core, one at a time, and see whether the tests notice.

    python tests/tools/mutate.py                 # all of them: a quarter of an hour
    python tests/tools/mutate.py --some 12 --seed 3
    python tests/tools/mutate.py --only horizon  # those whose name holds the word

Each fault replaces a piece of text in a temporary copy of the package; the tests that concern it
run there until the first fails. The exit status is 0 when at least `WANTED` of the faults are
killed. A fault named in `EXCUSED` may survive, and the reason is printed.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
WANTED = 0.95  # share of the faults that the tests are to notice
LONGEST_S = 300.0  # a test that a fault sends round for ever has noticed it

VOR, AIRCRAFT, EARTH = "tests/vor", "tests/aircraft", "tests/earth"
INTERCEPT, TRACKING = "tests/procedures/test_intercept.py", "tests/procedures/test_tracking.py"
TIMING, FIXING = "tests/procedures/test_timing.py", "tests/procedures/test_fixing.py"
ORIENT, AREA = "tests/procedures/test_orientation.py", "tests/procedures/test_error_area.py"
PILOTS, PUBLISHED = "tests/procedures/test_pilots.py", "tests/procedures/test_published_radials.py"
CHECK, CORE = "tests/receiver_check", "tests/core"


# A failing example need not be made small: that it fails is all that is asked.
QUICK = """
from hypothesis import Phase, settings
settings.register_profile("quick", phases=(Phase.explicit, Phase.generate), deadline=None)
"""


class Fault(NamedTuple):
    """One fault: its name, the file below vorlib, what stands there, what is put in its place."""

    name: str
    file: str
    old: str
    new: str
    tests: str


SEEN, REACH = "tests/vor/test_receiver.py", "tests/vor/test_receiver.py tests/vor/test_coverage.py"
RECEIVER, COVERAGE = "vor/receiver.py", "vor/coverage.py"
WIND, TURNS, FLIGHT = "aircraft/wind.py", "aircraft/turns.py", "aircraft/flight.py"
INTERCEPTS, LEAD = "procedures/intercept.py", "procedures/meeting.py"
TRACK = "procedures/tracking.py"
FIX, DME_FIX = "procedures/fixing.py", "procedures/dme_fixing.py"
AREAS = "procedures/error_area.py"
ORIENTATION, TIMES = "procedures/orientation.py", "procedures/timing.py"
CHECKS, BUDGET = "receiver_check/check.py", "receiver_check/error_budget.py"
GEODESIC, ELLIPSOID = "earth/geodesic.py", "earth/ellipsoid.py"
ANGLES = "core/angles.py"

FAULTS = (
    # ---- the receiver
    Fault(
        "needle on the other side",
        RECEIVER,
        "fold_180(self.course_deg - radial)\n        m = namespace(apart)",
        "fold_180(radial - self.course_deg)\n        m = namespace(apart)",
        SEEN,
    ),
    Fault(
        "TO for FROM", RECEIVER, "beside < 90.0, _FROM, _TO",
        "beside < 90.0, _TO, _FROM", SEEN,
    ),
    Fault(
        "needle not folded back toward TO", RECEIVER, "m.copysign(180.0 - beside, apart)",
        "m.copysign(beside - 90.0, apart)", SEEN,
    ),
    Fault("full scale at four dots", RECEIVER, "DOTS_FULL_SCALE = 5", "DOTS_FULL_SCALE = 4", SEEN),
    Fault(
        "full scale of 12 degrees", RECEIVER, "FULL_SCALE_DEG = 10.0\n", "FULL_SCALE_DEG = 12.0\n",
        SEEN,
    ),
    Fault(
        "pegged a little early", RECEIVER, "abs(deviation) > self.full_scale_deg",
        "abs(deviation) > 0.9 * self.full_scale_deg", SEEN,
    ),
    Fault(
        "abeam edge live", RECEIVER, "90.0) > ABEAM_HALF_WIDTH_DEG",
        "90.0) >= ABEAM_HALF_WIDTH_DEG", SEEN,
    ),
    Fault(
        "abeam sector wider", RECEIVER, "ABEAM_HALF_WIDTH_DEG = 3.0",
        "ABEAM_HALF_WIDTH_DEG = 3.15", SEEN,
    ),
    Fault(
        "cone by altitude", COVERAGE, "cone_nm(above, ",
        "cone_nm(altitude_ft + 0.0 * above, ", SEEN,
    ),
    Fault(
        "service volume by altitude", COVERAGE, "served_nm(service, height)",
        "served_nm(service, altitude_ft)", SEEN,
    ),
    Fault(
        "OFF outside the service volume", RECEIVER,
        "heard, flag = _flag(station, distance, cone, seen, beside)",
        "heard, flag = _flag(station, distance, cone, served, beside)", SEEN,
    ),
    Fault(
        "assured outside the service volume", RECEIVER,
        "(distance <= served) & heard", "(distance >= 0.0) & heard", SEEN,
    ),
    Fault(
        "assured below the horizon", RECEIVER,
        "(distance <= served) & heard", "distance <= served", SEEN,
    ),
    Fault(
        "horizon without the antenna's elevation", COVERAGE,
        "sight_nm(altitude_ft, antenna_ft)", "sight_nm(altitude_ft, 0.0)", SEEN,
    ),
    Fault(
        "horizon by height above the antenna", COVERAGE,
        "sight_nm(altitude_ft, ant", "sight_nm(height, ant", SEEN,
    ),
    Fault(
        "on the air though shut down", RECEIVER, " & station.on_the_air\n", "\n", SEEN,
    ),
    Fault(
        "horizon a tenth farther", RECEIVER,
        "(distance <= seen)", "(distance <= 1.1 * seen)", SEEN,
    ),
    Fault(
        "needle rate of the other sign", RECEIVER, "m.where(away, -radial_deg_s, radial_deg_s)",
        "m.where(away, radial_deg_s, -radial_deg_s)", SEEN,
    ),
    Fault(
        "needle rate by the azimuth at the station", RECEIVER,
        "m.radians(track - line.true_azimuth_end_deg)",
        "m.radians(track - line.true_azimuth_deg)", SEEN,
    ),
    Fault(
        "bearing error subtracted", RECEIVER, "radial + self.errors.at",
        "radial - self.errors.at", VOR,
    ),
    # ---- coverage
    Fault(
        "horizon constant of the optical horizon", COVERAGE, "HORIZON_NM_PER_ROOT_FT = 1.23",
        "HORIZON_NM_PER_ROOT_FT = 1.06", REACH,
    ),
    Fault(
        "cone of 45 degrees", COVERAGE, "CONE_HALF_ANGLE_DEG = 50.0", "CONE_HALF_ANGLE_DEG = 45.0",
        REACH,
    ),
    Fault(
        "cone by the sine", COVERAGE, "m.tan(m.radians(half_angle_deg))",
        "m.sin(m.radians(half_angle_deg))", REACH,
    ),
    Fault(
        "class T to 24 NM", COVERAGE, "Band(1000, 12000, 25.0, True)",
        "Band(1000, 12000, 24.0, True)", REACH,
    ),
    Fault(
        "class L without its ceiling", COVERAGE, "Band(1000, 18000, 40.0, True)",
        "Band(1000, 18000, 40.0, False)", REACH,
    ),
    Fault(
        "class VL narrow too high", COVERAGE, "Band(1000, 5000, 40.0, False), Band(5000, 18000",
        "Band(1000, 5000, 40.0, True), Band(5001, 18000", REACH,
    ),
    Fault(
        "below a thousand feet without the horizon", COVERAGE,
        "m.minimum(bands[0].radius_nm, sight_nm(height_ft, 0.0))", "bands[0].radius_nm", REACH,
    ),
    # ---- the station and sensing
    Fault(
        "declination added to a radial", "vor/station.py",
        "fold_360(self.true_azimuth_deg(there) - self.declination_deg)",
        "fold_360(self.true_azimuth_deg(there) + self.declination_deg)", VOR,
    ),
    Fault(
        "declination taken off a place's azimuth", "vor/station.py",
        "radial + self.declination_deg, distance_nm", "radial - self.declination_deg, distance_nm",
        VOR,
    ),
    Fault(
        "height by altitude", "vor/station.py",
        "return there.altitude_ft - self.position.altitude_ft",
        "return there.altitude_ft + 0.0 * self.position.altitude_ft", VOR,
    ),
    Fault(
        "declination drift of the other sign", "vor/station.py",
        "fold_180(self.declination_deg - variation_deg(self.position, on))",
        "fold_180(variation_deg(self.position, on) - self.declination_deg)", VOR,
    ),
    Fault("reverse at 90 degrees", "vor/sensing.py", "apart > 90.0", "apart >= 90.0", VOR),
    Fault("sensing under OFF", "vor/sensing.py", "(apart > 90.0) & on", "(apart > 90.0)", VOR),
    Fault(
        "bends forgotten", "vor/bearing_errors.py",
        "wandering = self.bends_deg * bend + self", "wandering = self", VOR,
    ),
    # ---- the aircraft
    Fault(
        "crosswind of the other sign", WIND, "wind.speed_kt * m.sin(radians)",
        "-wind.speed_kt * m.sin(radians)", AIRCRAFT,
    ),
    Fault(
        "headwind of the other sign", WIND, "wind.speed_kt * m.cos(radians), wind",
        "-wind.speed_kt * m.cos(radians), wind", AIRCRAFT,
    ),
    Fault(
        "correction by the tangent", WIND, "m.arctan2(sine, m.sqrt(1.0 - sine * sine))",
        "m.arctan2(sine, 1.0)", AIRCRAFT,
    ),
    Fault(
        "groundspeed without the correction", WIND,
        "airspeed * m.sqrt(1.0 - sine * sine) - head", "airspeed - head", AIRCRAFT,
    ),
    Fault(
        "wind flown toward", WIND, "return -speed * math.cos(radians), -speed * math.sin(radians)",
        "return speed * math.cos(radians), speed * math.sin(radians)", AIRCRAFT,
    ),
    Fault(
        "layer begins above its floor", WIND, "if altitude_ft >= floor_ft:",
        "if altitude_ft > floor_ft:", AIRCRAFT,
    ),
    Fault(
        "gravity of 10", TURNS, "STANDARD_GRAVITY_M_S2 = 9.80665", "STANDARD_GRAVITY_M_S2 = 10.0",
        AIRCRAFT,
    ),
    Fault(
        "radius by the speed alone", TURNS, "radius: FloatArray = speed**2 /",
        "radius: FloatArray = 60.0 * speed /", AIRCRAFT,
    ),
    Fault(
        "bank for twice the rate", TURNS, "m.arctan2(m.radians(rate) * speed",
        "m.arctan2(2.0 * m.radians(rate) * speed", AIRCRAFT,
    ),
    Fault(
        "lead by the sine", TURNS, "radius * (1.0 - m.cos(m.radians(angle)))",
        "radius * m.sin(m.radians(angle))", f"{AIRCRAFT} {INTERCEPT}",
    ),
    Fault(
        "bank beyond the limit", FLIGHT,
        "target = max(-limit, min(limit, float(finite(\"bank_deg\", bank_deg))))",
        "target = float(finite(\"bank_deg\", bank_deg))", AIRCRAFT,
    ),
    # ---- the procedures
    Fault(
        "lead with the wind's sign wrong", LEAD,
        "through_the_air - float(cross_kt)", "through_the_air + float(cross_kt)", INTERCEPT,
    ),
    Fault(
        "lead without the wind", LEAD,
        "through_the_air - float(cross_kt) * abs(end - begin) / rate",
        "through_the_air + 0.0 * float(cross_kt)", INTERCEPT,
    ),
    Fault(
        "intercept on the other side", INTERCEPTS, "(to_go > 0.0) != inbound",
        "(to_go > 0.0) == inbound", INTERCEPT,
    ),
    Fault(
        "three times the radials", INTERCEPTS, "m.maximum(2.0 * abs(radials)",
        "m.maximum(3.0 * abs(radials)", INTERCEPT,
    ),
    Fault(
        "intercept of no less than 30", INTERCEPTS, "SMALLEST_INTERCEPT_DEG = 20.0",
        "SMALLEST_INTERCEPT_DEG = 30.0", INTERCEPT,
    ),
    Fault(
        "steeper far out", INTERCEPTS, "angle: FloatArray = 45.0 - 15.0 * share",
        "angle: FloatArray = 30.0 + 15.0 * share", INTERCEPT,
    ),
    Fault(
        "overshoot though there is room", INTERCEPTS, "max(0.0, lead_nm - room_nm)",
        "max(0.0, lead_nm)", INTERCEPT,
    ),
    Fault(
        "wind of the intercept not turned to magnetic", INTERCEPTS,
        "Wind(wind.from_deg - station.declination_deg, wind.speed_kt)", "wind", INTERCEPT,
    ),
    Fault(
        "off course by the tangent", TRACK, "distance * m.sin(m.radians(needle))",
        "distance * m.tan(2.0 * m.radians(needle))", TRACKING,
    ),
    Fault(
        "212 ft a dot", TRACK, "RULE_FT_PER_DOT_NM = 200.0", "RULE_FT_PER_DOT_NM = 212.0", TRACKING,
    ),
    Fault("one in 57", TRACK, "\"NM\") * 60.0", "\"NM\") * 57.3", TRACKING),
    Fault(
        "all of the correction kept", TRACK, "self.toward * self.step_deg / 2.0",
        "self.toward * self.step_deg", TRACKING,
    ),
    Fault(
        "corrected away from the needle", TRACK, "toward=1 if dots > 0.0 else -1",
        "toward=-1 if dots > 0.0 else 1", TRACKING,
    ),
    Fault(
        "orientation reads the needle the wrong way", ORIENTATION,
        "wrap_360(course - off) if flag", "wrap_360(course + off) if flag", ORIENT,
    ),
    Fault(
        "TO taken for a radial", ORIENTATION, "wrap_360(course + off + 180.0)",
        "wrap_360(course + off)", ORIENT,
    ),
    Fault(
        "direct along the radial", ORIENTATION, "course = reciprocal_deg(radial_deg)",
        "course = float(wrap_360(radial_deg))", ORIENT,
    ),
    Fault("57 minutes in the rule", TIMES, "RULE_MINUTES = 60.0", "RULE_MINUTES = 57.3", TIMING),
    Fault(
        "home at airspeed", "procedures/timed_runs.py",
        "groundspeed = float(track(heading, speed, wind).groundspeed_kt)", "groundspeed = speed",
        TIMING,
    ),
    Fault(
        "slant range taken for distance", DME_FIX, "np.sqrt(slant * slant - height * height)",
        "np.sqrt(slant * slant - 0.0 * height)", FIXING,
    ),
    Fault(
        "fix behind a station", FIX, "behind = ((station, along < 0.0)",
        "behind = ((station, along < -1e9)", FIXING,
    ),
    Fault(
        "parallel radials fix", FIX, "SMALLEST_CUT_DEG = 1.0", "SMALLEST_CUT_DEG = 0.001", FIXING,
    ),
    Fault(
        "fix not settled on the ellipsoid", FIX, "MAXIMUM_ROUNDS = 12", "MAXIMUM_ROUNDS = 1",
        FIXING,
    ),
    Fault(
        "ellipse turned the wrong way", AREAS, "np.array([np.cos(along), -np.sin(along)])",
        "np.array([np.cos(along), np.sin(along)])", AREA,
    ),
    Fault(
        "95 per cent as 1.96", AREAS, "NINETY_FIVE_PERCENT = ", "NINETY_FIVE_PERCENT = 0.8 * ",
        AREA,
    ),
    Fault(
        "pairs of stations that nobody promises", AREAS, "return reading.assured",
        "return bool(reading.flag)", AREA,
    ),
    # ---- the receiver checks
    Fault(
        "limit itself fails", CHECKS, "<= check.limit_deg + ROUNDING_DEG",
        "< check.limit_deg - ROUNDING_DEG", CHECK,
    ),
    Fault(
        "error of the other sign", CHECKS,
        "difference_deg(indicated_radial_deg(course_deg, flag), published)",
        "difference_deg(published, indicated_radial_deg(course_deg, flag))", CHECK,
    ),
    Fault(
        "TO read as FROM", CHECKS, "m.where(shown == Flag.FROM, wrap_360",
        "m.where(shown != Flag.OFF, wrap_360", CHECK,
    ),
    Fault(
        "a day too long", CHECKS, "timedelta(days=rules.valid_days)",
        "timedelta(days=rules.valid_days + 1)", CHECK,
    ),
    Fault("5.7 degrees in the air", "receiver_check/rules.py", "6.0,\n", "5.7,\n", CHECK),
    Fault(
        "errors added, not squared", BUDGET, "math.sqrt(sum(part * part for part in parts))",
        "sum(parts)", CHECK,
    ),
    Fault(
        "width by the sine", BUDGET, "np.tan(np.radians(error))", "np.sin(np.radians(error))",
        CHECK,
    ),
    # ---- the earth and angles
    Fault(
        "a sphere", ELLIPSOID, "FLATTENING = 1.0 / 298.257223563", "FLATTENING = 1.0 / 1e9", EARTH,
    ),
    Fault(
        "azimuth of the wrong end", GEODESIC, "fold_360(start_deg), fold_360(end_deg)",
        "fold_360(end_deg), fold_360(start_deg)", EARTH,
    ),
    Fault(
        "a term of the longitude left out", GEODESIC, "cos_2m + c * cos_sigma * (2.0",
        "cos_2m + 0.0 * cos_sigma * (2.0", EARTH,
    ),
    Fault("000 for north", ANGLES, "folded == 0.0, 360.0", "folded == 0.0, 0.0", CORE),
    Fault(
        "turn the wrong way round", ANGLES,
        "_near(finite(\"to_deg\", to_deg)) - _near(finite(\"from_deg\", from_deg))",
        "_near(finite(\"from_deg\", from_deg)) - _near(finite(\"to_deg\", to_deg))", CORE,
    ),
    Fault("half a turn to the left", ANGLES, "folded <= -180.0", "folded < -180.0", CORE),
)  # fmt: skip

EXCUSED: dict[str, str] = {}  # name of a fault that may survive, and why


def main() -> int:
    """Run the faults asked for, print what became of each, and return the exit status."""
    wanted = _arguments()
    faults = [fault for fault in FAULTS if wanted.only in fault.name]
    if wanted.some:
        faults = random.Random(wanted.seed).sample(faults, min(wanted.some, len(faults)))
    survived = []
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder)
        _copy_into(copy)
        tests = sorted({path for fault in faults for path in fault.tests.split()})
        if not _passes(copy, " ".join(tests), wanted.seed):
            print("The tests fail without any fault: mend that first.")
            return 2
        for fault in faults:
            killed = _is_killed(copy, fault, wanted.seed)
            print(f"{'killed  ' if killed else 'SURVIVED'}  {fault.name}", flush=True)
            if not killed:
                survived.append(fault)
    for fault in survived:
        print(f"{fault.name}: {EXCUSED.get(fault.name, 'no excuse: a test is missing')}")
    share = 1.0 - len(survived) / len(faults)
    print(f"{len(faults) - len(survived)} of {len(faults)} killed, {100.0 * share:.1f} %")
    return 0 if share >= WANTED else 1


def _arguments() -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--only", default="", help="faults whose name holds this")
    asked.add_argument("--some", type=int, default=0, help="so many of them, drawn by the seed")
    asked.add_argument("--seed", type=int, default=0, help="of the draw and of the tests")
    return asked.parse_args()


def _copy_into(folder: Path) -> None:
    for name in ("vorlib", "tests"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "quick_examples.py").write_text(QUICK, encoding="utf-8")
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(ROOT / name, folder / name)


def _is_killed(folder: Path, fault: Fault, seed: int) -> bool:
    path = folder / "vorlib" / fault.file
    sound = path.read_text(encoding="utf-8")
    if fault.old not in sound:
        raise SystemExit(f"{fault.name}: {fault.file} does not hold {fault.old!r}")
    path.write_text(sound.replace(fault.old, fault.new), encoding="utf-8")
    try:
        return not _passes(folder, fault.tests, seed)
    finally:
        path.write_text(sound, encoding="utf-8")


def _passes(folder: Path, tests: str, seed: int) -> bool:
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-n0", "-p", "no:cacheprovider"]
    command += ["-p", "quick_examples", "--hypothesis-profile=quick"]
    command += [f"--hypothesis-seed={seed}", *tests.split()]
    # Without bytecode, which a fault of the same length and second would leave stale.
    sought = {"PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1", "MPLBACKEND": "agg"}
    try:
        run = subprocess.run(
            command, cwd=folder, env=os.environ | sought, capture_output=True, timeout=LONGEST_S
        )
    except subprocess.TimeoutExpired:
        return False
    if run.returncode > 1:  # neither passed nor failed: pytest itself could not run
        raise SystemExit(run.stdout.decode()[-2000:] + run.stderr.decode()[-2000:])
    return run.returncode == 0


if __name__ == "__main__":
    sys.exit(main())
