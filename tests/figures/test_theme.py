from __future__ import annotations

from dataclasses import fields

import pytest

from leanmark.figures.theme import THEMES, Theme, contrast, theme_by_name

TEXT_CONTRAST = 4.5  # WCAG 2.1 (W3C 2018), criterion 1.4.3, level AA, text of common size: from memory
SHAPE_CONTRAST = 3.0  # WCAG 2.1 (W3C 2018), criterion 1.4.11, graphics: from memory


def test_contrast_of_black_on_white_is_twenty_one() -> None:
    # by the definition: (1 + 0.05) / (0 + 0.05)
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#abcdef", "#abcdef") == pytest.approx(1.0)


def test_contrast_is_the_same_both_ways() -> None:
    assert contrast("#0b5563", "#fbfaf7") == contrast("#fbfaf7", "#0b5563")


@pytest.mark.parametrize("name", list(THEMES))
@pytest.mark.parametrize("role", ["ink", "soft_ink", "accent", "ochre_text"])
def test_words_stand_out_from_the_ground(name: str, role: str) -> None:
    theme = theme_by_name(name)
    assert contrast(getattr(theme, role), theme.ground) >= TEXT_CONTRAST


@pytest.mark.parametrize("name", list(THEMES))
@pytest.mark.parametrize(
    ("shape", "against"),
    [("ink", "skin"), ("ink", "cloth"), ("ochre", "ground"), ("accent", "accent_tint"), ("accent", "ground")],
)
def test_shapes_stand_out_from_what_is_behind(name: str, shape: str, against: str) -> None:
    theme = theme_by_name(name)
    assert contrast(getattr(theme, shape), getattr(theme, against)) >= SHAPE_CONTRAST


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_every_colour_is_written_in_full(theme: Theme) -> None:
    for field in fields(theme):
        if field.name != "font_family":
            colour = getattr(theme, field.name)
            assert len(colour) == 7
            int(colour.removeprefix("#"), 16)


def test_unknown_theme_lists_the_known() -> None:
    with pytest.raises(ValueError, match="theme is 'sepia'; it must be one of light, dark, print"):
        theme_by_name("sepia")
