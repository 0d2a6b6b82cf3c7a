"""The lessons by number, as kinds of question name them, and the notebook of each."""

from types import MappingProxyType

NOTEBOOKS = MappingProxyType(
    {
        name[:2]: name
        for name in (
            "01_radials",
            "02_indicator",
            "03_where_am_i",
            "04_to_the_station",
            "05_intercepting",
            "06_tracking_in_wind",
            "07_reverse_sensing",
            "08_over_the_station",
            "09_fixing_position",
            "10_time_to_station",
            "11_trusting_the_receiver",
            "12_inside_the_signal",
            "13_whole_flight",
        )
    }
)
"""Names of the notebooks, without the ending, by the numbers of their lessons."""
