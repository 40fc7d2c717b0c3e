"""What there is to read about crops and their troubles, found by crop, by sign, or in a grower's own words."""

from dataclasses import dataclass

from scout.services.context import Context
from scout.services.wording import kind_text

WORDS_MOST = 8


@dataclass(frozen=True)
class Entry:
    """One row of the guide: what opens it and what it says."""

    id: str
    row: str
    heard: str = ""
    """Other names it is found by."""


def crops(context: Context) -> tuple[Entry, ...]:
    """Return the crops by name."""
    found = [Entry(crop.id, crop.name) for crop in context.knowledge.crops.values()]
    return tuple(sorted(found, key=lambda entry: entry.row))


def troubles(context: Context) -> tuple[Entry, ...]:
    """Return every trouble by name, with its other names."""
    causes = sorted(context.knowledge.causes.values(), key=lambda cause: cause.name.casefold())
    return tuple(Entry(c.id, f"{c.name} · {kind_text(c.kind)}", " ".join((c.agent or "", *c.aliases))) for c in causes)


def troubles_of(context: Context, crop: str) -> tuple[Entry, ...]:
    """Return what a crop can have, the commonest first; what is normal among them."""
    words = context.knowledge.scales.commonness.words
    causes = sorted(context.knowledge.causes_of(crop), key=lambda c: (-words[c.common[crop]], c.name))
    return tuple(Entry(c.id, f"{c.name} · {kind_text(c.kind)}") for c in causes)


def signs_of(context: Context, crop: str) -> tuple[Entry, ...]:
    """Return what can be seen on a crop, part by part."""
    from scout.diagnosis.crop_net import crop_net

    known = context.knowledge
    signs = sorted(crop_net(known, crop).symptoms, key=lambda s: (known.part_of[s.id], s.name))
    return tuple(Entry(s.id, f"{known.part_of[s.id].replace('_', ' ').capitalize()}: {s.name}") for s in signs)


def troubles_showing(context: Context, crop: str, sign: str) -> tuple[Entry, ...]:
    """Return what can show a sign on a crop, what shows it most often first."""
    from scout.diagnosis.crop_net import crop_net

    net = crop_net(context.knowledge, crop)
    column = net.column.get(sign)
    if column is None:
        return ()
    pairs = [(float(net.strength[n, column]), cause) for n, cause in enumerate(net.causes)]
    shown = sorted((pair for pair in pairs if pair[0] > 0.0), key=lambda pair: (-pair[0], pair[1].name))
    return tuple(Entry(cause.id, f"{cause.name} · {kind_text(cause.kind)}") for _, cause in shown)


def signs_in_words(context: Context, crop: str, words: str) -> tuple[Entry, ...]:
    """Return the signs that a grower's own words may mean, the surest first."""
    from scout.diagnosis.words import match_words

    found = [m for m in match_words(context.knowledge, crop, words, most=30) if m.kind == "symptom" and m.seen]
    symptoms = context.knowledge.symptoms
    return tuple(Entry(match.id, symptoms[match.id].name) for match in found[:WORDS_MOST])


def page(context: Context, entry: str) -> tuple[str, ...]:
    """Return one crop or trouble as the lines of a page."""
    from scout.services.vocabulary import shown

    return tuple(shown(context.knowledge, entry))
