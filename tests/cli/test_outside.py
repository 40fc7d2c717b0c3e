"""Goods brought in and disease near by, noted at a prompt line."""


def test_goods_and_reports_are_noted_and_listed(bedwalk) -> None:
    assert bedwalk("garden", "brought-in", "straw", "--bed", "Long bed").out == "Noted: straw brought in\n"
    assert "Downy mildew" in bedwalk("garden", "near", "downy_mildew_cucurbit", "--km", "12").out
    lines = bedwalk("garden", "outside", "--json").json
    assert lines[0].endswith("12 km away") and lines[1].endswith("brought in: straw (Long bed)")


def test_an_unknown_disease_and_bed_are_refused_in_a_sentence(bedwalk) -> None:
    assert "travel" in bedwalk("garden", "near", "drought").complaint
    assert "nowhere" in bedwalk("garden", "brought-in", "straw", "--bed", "nowhere").complaint
