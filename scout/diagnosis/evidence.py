"""What is known of one planting on one day, in the words of the knowledge base."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scout.knowledge.growth import SizeId
from scout.knowledge.schema import StageId


@dataclass(frozen=True)
class Day:
    """One day of weather; None where it was not recorded."""

    on: date
    tmax_c: float | None = None
    tmin_c: float | None = None
    rain_mm: float | None = None
    wet_h: float | None = None
    wet_morning: bool | None = None
    rh_mean_pct: float | None = None
    bee_hours_h: float | None = None
    """Hours of the morning fit for bees."""
    wet_night_h: float | None = None
    """Hours of wet leaves from the evening before to this morning."""
    leaf_spot_n: float | None = None
    """How favourable the day was for tomato leaf spots, 0 to 4."""
    blight_day: bool | None = None
    """Warm and humid enough for late blight; two in a row infect."""
    downy_night: bool | None = None
    """The night before was long wet and mild enough for cucumber downy mildew."""
    soil_water: float | None = None
    """Share of the water within reach of the roots that is there at the end of the day, 0-1."""
    forecast: bool = False
    """A forecast never serves as a record."""


@dataclass(frozen=True)
class Count:
    """How many plants were looked at and how many were affected; None: not counted."""

    looked: int | None = None
    affected: int | None = None


@dataclass(frozen=True)
class Bout:
    """What an earlier visit of the same open problem gave and no later one gave again."""

    on: date
    seen: Mapping[str, Count] = field(default_factory=dict)
    not_seen: Mapping[str, Count] = field(default_factory=dict)


@dataclass(frozen=True)
class Response:
    """How a cause's control did: for or against the cause, in log-odds."""

    control: str
    log_odds: float


@dataclass(frozen=True)
class Evidence:
    """Everything the ranking may use; each clue acts once."""

    crop: str
    on: date | None = None
    stage: StageId | None = None
    season: str | None = None
    seen: Mapping[str, Count] = field(default_factory=dict)
    not_seen: Mapping[str, Count] = field(default_factory=dict)
    circumstances: Mapping[str, bool] = field(default_factory=dict)
    conditions: Mapping[str, bool | None] = field(default_factory=dict)
    days: tuple[Day, ...] = ()
    """The weather the conditions were told from."""
    size: SizeId | None = None
    """How big the odd fruit is; None: nobody said."""
    own_counts: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    """Cause → times it was confirmed in this garden on this crop, of times asked."""
    earlier: tuple[Bout, ...] = ()
    """Earlier visits of the open problem, oldest first: what they made of the causes carries over, fading."""
    responses: Mapping[str, Response] = field(default_factory=dict)
    """Cause → how the control that was tried for it did."""
