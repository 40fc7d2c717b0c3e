"""Which signs are to be expected on a planting before anybody has looked."""

from scout.diagnosis.crop_net import crop_net
from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import build_model
from scout.knowledge.base import Knowledge
from scout.knowledge.vocabulary import Symptom


def signs_expected(knowledge: Knowledge, evidence: Evidence) -> tuple[tuple[Symptom, float], ...]:
    """Return every sign that a cause of the crop shows with the chance of seeing it here, 0-1, the likeliest first.

    The chances are those before anything is seen: `evidence` gives crop, stage, season, weather and how it is grown,
    and its findings count nothing. Equal chances keep the order of the vocabulary.
    """
    net = crop_net(knowledge, evidence.crop)
    prior = build_model(knowledge, evidence).prior()
    silent = (1.0 - net.leak) * (1.0 - prior[:, None] * net.strength[:, :-1]).prod(axis=0)
    signs = ((sign, 1.0 - float(chance)) for sign, chance in zip(net.symptoms, silent, strict=True))
    return tuple(sorted(signs, key=lambda one: -one[1]))
