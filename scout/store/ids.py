"""Names for rows that two devices can make apart and merge later; pure, the caller brings time and chance."""

import uuid

_RANDOM_BITS = 74


def new_id(now_ms: int, random_bytes: bytes) -> str:
    """Return a UUID of version 7 (RFC 9562, section 5.7) as 36 characters.

    `now_ms` is the time since 1970 in milliseconds (0 to 2^48 - 1); `random_bytes` are ten bytes, of which 74
    bits are used. Raises ValueError outside these.
    """
    if not 0 <= now_ms < 1 << 48:
        raise ValueError("now_ms must lie between 0 and 2^48 - 1")
    if len(random_bytes) != 10:
        raise ValueError("random_bytes must be ten bytes")
    return _pack(now_ms, int.from_bytes(random_bytes) & ((1 << _RANDOM_BITS) - 1))


def id_after(last: str | None, now_ms: int, random_bytes: bytes) -> str:
    """Return a new id that sorts after `last`, also within one millisecond or when the clock stepped back.

    RFC 9562, section 6.2, method 2: while the clock has not moved on, the random part is counted up.
    """
    fresh = new_id(now_ms, random_bytes)
    if last is None or fresh > last:
        return fresh
    value = uuid.UUID(last).int
    at_ms, chance = value >> 80, ((value >> 64) & 0xFFF) << 62 | (value & ((1 << 62) - 1))
    step = 1 + random_bytes[0]
    if chance + step >= 1 << _RANDOM_BITS:
        return _pack(at_ms + 1, step)
    return _pack(at_ms, chance + step)


def _pack(at_ms: int, chance: int) -> str:
    high, low = chance >> 62, chance & ((1 << 62) - 1)
    return str(uuid.UUID(int=at_ms << 80 | 0x7 << 76 | high << 64 | 0b10 << 62 | low))


def weather_id(garden_id: str, station: str, instant: str, kind: str, source: str) -> str:
    """Return a UUID of version 5 (RFC 9562, section 5.5): two devices that import one file agree on it.

    The garden is the name space; `instant` is the day, or "hours" for a series of them; `source` the basis, with
    the time of issue for a forecast.
    """
    return str(uuid.uuid5(uuid.UUID(garden_id), "\x1f".join((station, instant, kind, source))))
