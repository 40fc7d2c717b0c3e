"""When an interval of a label ends by the garden's wall clock: elapsed hours, also across a change of the clock."""

from datetime import UTC, datetime, timedelta, tzinfo

from scout.science.limits import require_count

_HOUR = timedelta(hours=1)
_MINUTE = timedelta(minutes=1)


def ends_by_the_clock(applied: datetime, hours_n: int, zone: tzinfo) -> datetime:
    """Return the wall-clock time at which so many hours have passed since a wall-clock time, without a zone.

    Hours are counted as they pass, so a day of 23 or 25 hours shortens or lengthens nothing. Where a wall time
    can mean two instants the later is taken, for the beginning and for the end: a hold never ends early.
    Raises ValueError for negative hours. Source: 24 hours a day from the end of the last application, as pesticide
    safety pages of US universities count them; the rule for the doubled hour is our own choice.
    """
    require_count("hours_n", hours_n)
    begun = max(applied.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1))
    end = begun + hours_n * _HOUR
    if end.second or end.microsecond:
        end = end.replace(second=0, microsecond=0) + _MINUTE
    while _stands_twice(end.astimezone(zone).replace(tzinfo=None), zone):
        end += _MINUTE
    return end.astimezone(zone).replace(tzinfo=None, fold=0)


def _stands_twice(wall: datetime, zone: tzinfo) -> bool:
    """Return whether the clock shows this time twice, because it is put back."""
    first, second = (wall.replace(tzinfo=zone, fold=fold).utcoffset() for fold in (0, 1))
    return first is not None and second is not None and first > second
