"""The segment tables there are, and which of them serve a trainee."""

from __future__ import annotations

from typing import Final

from leanmark.body import de_leva_1996, winter_dempster
from leanmark.body.build import Sex
from leanmark.body.segment_table import SegmentTable

TABLES: Final[dict[str, SegmentTable]] = {
    table.name: table for table in (de_leva_1996.MALE, de_leva_1996.FEMALE, winter_dempster.TABLE)
}


def tables_for(sex: Sex | None) -> tuple[SegmentTable, ...]:
    """The tables whose answers together make a trainee's: one for a stated sex, both where it is not."""
    if sex is None:
        return de_leva_1996.MALE, de_leva_1996.FEMALE
    return (TABLES[f"de_leva_{sex}"],)
