"""What is done while the grower reads the first screen, so that no key of the walk waits for it."""

from collections.abc import Iterator

from scout.services.context import Context
from scout.services.garden import planted


def load_libraries() -> None:
    """Load what the answers of a walk need and no first screen waits for; costs a second, once."""
    from importlib import import_module

    for module in (
        "diagnosis.network",
        "diagnosis.words",
        "science.sampling",
        "services.causes",
        "services.stop_facts",
        "store.undo",
    ):
        import_module(f"scout.{module}")


def try_rankings(context: Context) -> Iterator[str]:
    """Rank one sign for every crop that stands here, crop by crop: the first ranking of a crop makes what all share."""
    from scout.diagnosis.evidence import Count, Evidence
    from scout.services.answering import answer_evidence

    for crop in dict.fromkeys(plant.crop for plant in planted(context)):
        signs = [sign for look in crop.looks for sign in look.symptoms][:1]
        seen = {sign: Count(None, None) for sign in signs}
        answer_evidence(context.knowledge, Evidence(crop=crop.id, on=context.today, seen=seen), most=1)
        yield crop.id
