"""The reader of the pages itself: what it must find, and what it must leave alone."""

from __future__ import annotations

from tests.docs.pages import Command, anchors, commands, links, table_rows

PAGE = """# Cards & sheets

See [the words](nomenclature.md#units) and ![a row](figures/row.svg).

```console
$ cd somewhere
$ leanmark cards demo/squad.toml \\
    --out build/demo
3 cards
...
$ leanmark mark row
```

```sh
make demo
```

```toml
# $ leanmark is not run from here, and [this](gone.md) is no link
```

| name | unit |
|---|---|
| load | N |
"""


def test_commands_are_found_with_their_continued_lines_and_output() -> None:
    assert commands(PAGE) == [
        Command(7, "leanmark cards demo/squad.toml --out build/demo", ("3 cards", "...")),
        Command(11, "leanmark mark row", ()),
    ]


def test_links_are_read_outside_of_samples() -> None:
    assert links(PAGE) == ["nomenclature.md#units", "figures/row.svg"]


def test_headings_give_anchors_without_punctuation() -> None:
    assert anchors(PAGE) == {"cards--sheets"}


def test_table_rows_leave_out_the_head() -> None:
    assert table_rows(PAGE) == [(24, ["load", "N"])]
