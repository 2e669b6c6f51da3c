"""What `cuspway lessons` may be given."""

import argparse
from pathlib import Path

from scenes.argument_parts import add_traceback


def add_lessons(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command."""
    lessons = commands.add_parser(
        "lessons",
        help="list the lessons of the page, print one to start from, check your own",
        description="Lessons are taken on the page (cuspway page). Each is a page of TOML text; "
        "this lists those of the program, prints one as a start for your own, and looks through "
        "your own.",
        epilog="examples:\n  cuspway lessons\n  cuspway lessons 01_christensen_gap > mine.toml\n"
        "  cuspway lessons --check mine.toml\n  cuspway page --lessons mine.toml\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    lessons.add_argument("name", nargs="?", metavar="NAME", help="print the text of this lesson")
    lessons.add_argument(
        "--check", type=Path, metavar="PLACE", help="look through a lesson file or a folder of them"
    )
    lessons.add_argument(
        "--readings", action="store_true", help="list what lessons can read, and their formulas"
    )
    add_traceback(lessons)
