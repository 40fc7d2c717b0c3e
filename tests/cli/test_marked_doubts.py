"""In lines: a person is asked; a script says --sure or is told what was odd."""


def measure(bedwalk, *more: str, **how):
    return bedwalk("marked", "measure", "Long bed", "tape", *more, **how)


def test_numbers_that_contradict_each_other_are_asked_about(bedwalk) -> None:
    bedwalk("marked", "add", "Long bed", "tape")
    odd = ("--top", "9", "--stripped-to", "10")
    assert "above the top leaf 9; count again, or add --sure" in measure(bedwalk, *odd).complaint
    assert "count again" in measure(bedwalk, *odd, typed="n\n").complaint
    said = measure(bedwalk, *odd, typed="y\n")
    assert "Stripped up to 10 is above the top leaf 9." in said.out and "stripped to 10" in said.out
    assert measure(bedwalk, *odd, "--sure").code == 0


def test_what_goes_down_is_kept_and_said(bedwalk) -> None:
    bedwalk("marked", "add", "Long bed", "tape")
    measure(bedwalk, "--top", "18", on="2026-07-15")
    said = measure(bedwalk, "--top", "16").out
    assert "The top leaf was 18 on 15 July and is 16 now." in said and "bedwalk walk undo" in said
