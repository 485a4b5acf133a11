"""The colours and the face of a figure, for light and dark screens and for paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

ThemeName = Literal["light", "dark", "print"]


@dataclass(frozen=True)
class Theme:
    """Colours by what they say, as ``#rrggbb``, and the family of the letters.

    ground: the paper; ink, soft_ink: text and outlines; hairline: rulings; skin, far_skin, cloth, far_cloth,
    shoe, far_shoe, hair: fills of the body; ghost, ghost_line: earlier phases; accent: what the floor says;
    accent_tint: its band; ochre_text, ochre: the strap's words and the strap.
    """

    ground: str
    ink: str
    soft_ink: str
    far_line: str
    hairline: str
    skin: str
    far_skin: str
    cloth: str
    far_cloth: str
    shoe: str
    far_shoe: str
    hair: str
    ghost: str
    ghost_line: str
    accent: str
    accent_tint: str
    ochre: str
    ochre_text: str
    font_family: str


_SCREEN_FACE: Final = "system-ui, 'Noto Sans', 'DejaVu Sans', Arial, sans-serif"
_PRINT_FACE: Final = "'Libertinus Serif', serif"
"""The sheets' compiler carries this face itself, so that a sheet looks alike on every machine."""

THEMES: Final[dict[ThemeName, Theme]] = {
    "light": Theme(
        ground="#fbfaf7",
        ink="#1d2528",
        soft_ink="#566166",
        far_line="#8f999b",
        hairline="#c8ccc9",
        skin="#eceae3",
        far_skin="#f5f4f0",
        cloth="#c3d3d4",
        far_cloth="#e1e9e9",
        shoe="#41525a",
        far_shoe="#b3bcbe",
        hair="#4b5658",
        ghost="#f3f3ef",
        ghost_line="#a9b1b1",
        accent="#0b5563",
        accent_tint="#d3e2e4",
        ochre="#b0760a",
        ochre_text="#855600",
        font_family=_SCREEN_FACE,
    ),
    "dark": Theme(
        ground="#13181a",
        ink="#e9e7e0",
        soft_ink="#a4aeb0",
        far_line="#66726f",
        hairline="#3b4548",
        skin="#39464a",
        far_skin="#222b2e",
        cloth="#2a6a75",
        far_cloth="#1c3d44",
        shoe="#cdd3d2",
        far_shoe="#5b6769",
        hair="#b9bfbc",
        ghost="#192023",
        ghost_line="#55615f",
        accent="#6cc3cf",
        accent_tint="#1d4850",
        ochre="#d9a441",
        ochre_text="#e0b05a",
        font_family=_SCREEN_FACE,
    ),
    "print": Theme(
        ground="#ffffff",
        ink="#141a1c",
        soft_ink="#475156",
        far_line="#7d888a",
        hairline="#b9bebc",
        skin="#eeece6",
        far_skin="#f8f7f4",
        cloth="#bccfd1",
        far_cloth="#e2eaea",
        shoe="#34444b",
        far_shoe="#aab4b6",
        hair="#414c4e",
        ghost="#f6f6f4",
        ghost_line="#9aa3a3",
        accent="#0b4f5c",
        accent_tint="#cfdfe2",
        ochre="#a86e05",
        ochre_text="#7a4e00",
        font_family=_PRINT_FACE,
    ),
}


def theme_by_name(name: str) -> Theme:
    """The named theme.

    Raises:
        ValueError: there is no theme of that name.
    """
    for key, theme in THEMES.items():
        if key == name:
            return theme
    raise ValueError(f"theme is {name!r}; it must be one of {', '.join(THEMES)}")


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two ``#rrggbb`` colours, 1 to 21.

    WCAG 2.1 (W3C 2018), definitions of contrast ratio and relative luminance: from memory.
    """
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    channels = [int(colour[start : start + 2], 16) / 255.0 for start in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
