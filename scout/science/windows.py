"""Which days made the fruit in the hand: windows of dates by counting back, and forward.

Heat shortens the time from flower to harvest; that is not modelled yet, the span given is taken as it is.
"""

import math
from datetime import date, timedelta
from typing import NamedTuple

from scout.science.limits import require_count, require_within

_LONGEST_D = 400.0


class Window(NamedTuple):
    """First and last day, both inside."""

    first: date
    last: date

    def days(self) -> list[date]:
        """Return every day of the window in order."""
        return [self.first + timedelta(days=step) for step in range((self.last - self.first).days + 1)]


def flowering_window(on: date, flower_to_pick_d: tuple[float, float]) -> Window:
    """Return the days on which a fruit of picking size on this day can have been in flower.

    Units: flower_to_pick_d least and most days from open flower to harvest.
    Valid: 0 ≤ least ≤ most ≤ 400; part days widen the window.
    Raises: ValueError outside that.
    Source: date arithmetic; the span comes with the crop.
    """
    least_d, most_d = _whole_days(flower_to_pick_d)
    return Window(on - timedelta(days=most_d), on - timedelta(days=least_d))


def picking_window(flowering: Window, flower_to_pick_d: tuple[float, float]) -> Window:
    """Return the days on which fruit of these flowers can reach picking size.

    Units: flower_to_pick_d least and most days from open flower to harvest.
    Valid: 0 ≤ least ≤ most ≤ 400; part days widen the window.
    Raises: ValueError outside that.
    Source: date arithmetic; the span comes with the crop.
    """
    least_d, most_d = _whole_days(flower_to_pick_d)
    return Window(flowering.first + timedelta(days=least_d), flowering.last + timedelta(days=most_d))


def bud_window(flowering: Window, before_d: int) -> Window | None:
    """Return the days on which the buds of these flowers could be harmed; None when before_d is 0.

    Each flower counts the before_d days before it opens, not the day of opening itself.
    Raises ValueError for a negative number of days.
    """
    require_count("before_d", before_d)
    if before_d == 0:
        return None
    return Window(flowering.first - timedelta(days=before_d), flowering.last - timedelta(days=1))


def last_n_days(on: date, days_n: int) -> Window:
    """Return the days_n days up to and including this day; raises ValueError for fewer than one."""
    require_count("days_n", days_n, 1)
    return Window(on - timedelta(days=days_n - 1), on)


def _whole_days(flower_to_pick_d: tuple[float, float]) -> tuple[int, int]:
    least_d, most_d = flower_to_pick_d
    require_within("most days from flower to harvest", most_d, 0.0, _LONGEST_D)
    require_within("least days from flower to harvest", least_d, 0.0, most_d)
    return math.floor(least_d), math.ceil(most_d)
