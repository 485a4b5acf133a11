"""The ``leanmark`` command: runs what is asked, and turns what went wrong into one line and an exit code."""

from __future__ import annotations

import os
import sys
from typing import Final

from leanmark.cli.interrupt import came_of_ctrl_c
from leanmark.cli.terminal import say_what_it_can

FAULT: Final = 1
"""Exit code for a fault of ours."""
WRONG_INPUT: Final = 2
"""Exit code for input that cannot be used, the same as the shell's own for wrong usage."""
NOBODY_READS: Final = 1
"""Exit code after the reader of a pipe left, the same as the command-line library's own."""
INTERRUPTED: Final = 130
"""Exit code after Ctrl-C, as shells report it."""


def main() -> None:
    """Run the command; wrong input is one line and exit code 2, never a traceback."""
    try:
        say_what_it_can(sys.stdout, sys.stderr)
        code = _run()
    except (KeyboardInterrupt, Exception) as error:
        if not came_of_ctrl_c(error):
            raise
        code = INTERRUPTED
    sys.exit(code)


def _run() -> int:
    from leanmark.cli.app import app
    from leanmark.cli.refusal import is_interrupt, refusal

    try:
        code = app(sys.argv[1:] or ["--help"], prog_name="leanmark", standalone_mode=False)
        sys.stdout.flush()
    except BrokenPipeError:
        return _leave_the_pipe()
    except Exception as error:
        if is_interrupt(error):
            return INTERRUPTED
        said, ours = refusal(error)
        print(f"leanmark: {said}", file=sys.stderr)
        return FAULT if ours else WRONG_INPUT
    return int(code or 0)


def _leave_the_pipe() -> int:
    """Send what is still to be printed nowhere, so that nobody complains at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return NOBODY_READS


if __name__ == "__main__":
    main()
