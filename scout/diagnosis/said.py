"""The words of a clause as the search sees them, and what they may mean."""

from dataclasses import dataclass

from scout.diagnosis.phrases import Entry


@dataclass(frozen=True)
class Said:
    """A word of a grower's sentence."""

    stem: str
    denied: bool
    alike: dict[str, float]
    """The stems of the vocabulary that it may stand for, and how alike they are."""
    part: str | None
    """The part of the plant that it names."""
    aside: bool
    """It says where, not what: "cracks near the stalk"."""
    unsure: bool
    """It is asked, guessed, or told of another year."""


@dataclass(frozen=True)
class Setting:
    """What else is known of the words of a clause."""

    own: frozenset[str] = frozenset()
    """Parts that the clause names, also where those words are set aside by now."""
    before: frozenset[str] = frozenset()
    """Parts that were spoken of before."""
    whole: bool = False
    """It speaks of the whole plant."""
    needed: frozenset[int] = frozenset()
    """Sorts of light words that it says: "one", "still"."""


@dataclass(frozen=True)
class Hit:
    """An entry that a stretch of the words may mean."""

    entry: Entry
    certainty: float
    seen: bool
    """False: the words deny it."""
    named_by_denial: bool
    """It was met by words that its own name denies: "no bees"."""
    places: frozenset[int]
    """Numbers of the words it was met by."""
    explains: frozenset[int]
    """The same, and those between them that it is called by elsewhere."""
    complete: bool
    """Every word of the phrase but the part was said, and said as it stands there."""
    with_part: bool
    """It is complete, and its part was said as well."""
    unsure: bool
    """It rests on words that are no report of today."""
