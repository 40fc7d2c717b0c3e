"""Weather in which leaf diseases infect: daily severity values and rules of humid nights.

They tell how favourable a day was, never when to treat; commercial totals are no orders for a garden.
"""

from scout.science.limits import require_within

# From hours on which each value 1, 2, 3, 4 begins; 25 cannot occur in a day.
_LEAF_SPOT = (
    (13.0, 18.0, (7, 16, 21, 25)),
    (18.0, 21.0, (4, 9, 16, 23)),
    (21.0, 26.0, (3, 6, 13, 21)),
    (26.0, 30.0, (4, 9, 16, 23)),
)
_LATE_BLIGHT = (
    (7.2, 11.7, (16, 19, 22, 25)),
    (11.7, 15.1, (13, 16, 19, 22)),
    (15.1, 26.7, (10, 13, 16, 19)),
)
_HUMID_H = 6
_LEAST_NIGHT_C = 10.0
_COLDEST_C, _HOTTEST_C = -60.0, 60.0


def leaf_spot_severity_n(wet_h: int, wet_mean_c: float) -> int:
    """Return how favourable a day was for early blight and Septoria on tomato, 0 to 4.

    Units: wet_h whole hours of leaf wetness, wet_mean_c mean temperature of those hours, °C.
    Valid: 0 to 24 h; 0 outside 13 to 29 °C. Printed whole degrees are read as up to the next whole degree.
    Raises: ValueError outside 0 to 24 h, or for a temperature that cannot be.
    Source: Madden, Pennypacker & MacNab 1978, Phytopathology 68:1354, four temperature classes; cut points as
    carried by an open university code, the printed table was not seen.
    """
    return _value(_LEAF_SPOT, "wet_h", wet_h, wet_mean_c)


def late_blight_severity_n(humid_h: int, humid_mean_c: float) -> int:
    """Return how favourable a day was for late blight, 0 to 4.

    Units: humid_h whole hours at 90 % humidity and above, humid_mean_c mean temperature of those hours, °C.
    Valid: 0 to 24 h; 0 outside 7.2 to 26.6 °C.
    Raises: ValueError outside 0 to 24 h, or for a temperature that cannot be.
    Source: Wallin 1962; Krause, Massie & Hyre 1975, Plant Disease Reporter 59:95; cut points from a university page.
    """
    return _value(_LATE_BLIGHT, "humid_h", humid_h, humid_mean_c)


def _value(table: tuple[tuple[float, float, tuple[int, ...]], ...], name: str, hours_h: int, mean_c: float) -> int:
    require_within(name, hours_h, 0, 24)
    require_within("mean temperature of these hours, °C,", mean_c, _COLDEST_C, _HOTTEST_C)
    for low, high, begins in table:
        if low <= mean_c < high:
            return sum(hours_h >= start for start in begins)
    return 0


def humid_day(tmin_c: float, humid_h: float) -> bool:
    """Return whether one day was warm and humid enough; two such days in a row let late blight infect.

    Units: tmin_c °C; humid_h hours at 90 % humidity and above.
    Valid: -60 to 60 °C, 0 to 24 h. "No" is not "no risk": infection is told of down to 6 °C.
    Raises: ValueError outside that.
    Source: Hutton criteria 2017: 10 °C and six hours.
    """
    require_within("tmin_c", tmin_c, _COLDEST_C, _HOTTEST_C)
    require_within("humid_h", humid_h, 0.0, 24.0)
    return tmin_c >= _LEAST_NIGHT_C and humid_h >= _HUMID_H


def downy_mildew_night(wet_h: float, wet_mean_c: float) -> bool:
    """Return whether a wet night was long and mild enough for downy mildew to infect cucumber leaves.

    Units: wet_h hours of leaf wetness, wet_mean_c their mean temperature, °C.
    Valid: wet_h 0 to 24; 2 h suffice from 20 °C, 6 h from 10 °C, 12 h from 5 °C; not above 25 °C, though one of the
    treatments infected at 28 °C.
    Raises: ValueError outside 0 to 24 h, or for a temperature that cannot be.
    Source: factorial study on cucumber leaves, abstract (Cohen 1977, Canadian Journal of Botany 55; author and year
    from memory).
    """
    require_within("wet_h", wet_h, 0.0, 24.0)
    require_within("wet_mean_c", wet_mean_c, _COLDEST_C, _HOTTEST_C)
    if wet_mean_c > 25.0:
        return False
    least = ((20.0, 2.0), (10.0, 6.0), (5.0, 12.0))
    return any(wet_mean_c >= from_c and wet_h >= hours for from_c, hours in least)
