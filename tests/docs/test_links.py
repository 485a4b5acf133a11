"""Every relative link of the pages leads somewhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.docs.pages import PAGES, ROOT, anchors, links, page_name

OUTSIDE = ("http://", "https://", "mailto:")


@pytest.mark.parametrize("page", PAGES, ids=page_name)
def test_relative_links_resolve(page: Path) -> None:
    broken = [target for target in links(page.read_text(encoding="utf-8")) if not _resolves(page, target)]
    assert not broken, f"{page_name(page)} links to what is not there: {broken}"


def _resolves(page: Path, target: str) -> bool:
    if target.startswith(OUTSIDE):
        return True
    path, _, anchor = target.partition("#")
    file = (page.parent / path).resolve() if path else page
    if not file.is_relative_to(ROOT) or not file.exists():
        return False
    return not anchor or anchor in anchors(file.read_text(encoding="utf-8"))


def test_index_leads_to_every_page_of_docs() -> None:
    index = ROOT / "docs" / "README.md"
    linked = {
        (index.parent / target.partition("#")[0]).resolve() for target in links(index.read_text("utf-8"))
    }
    missing = [page_name(page) for page in ROOT.glob("docs/**/*.md") if page not in {*linked, index}]
    assert not missing, f"docs/README.md should link to {missing}"
