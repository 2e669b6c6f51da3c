"""Print the tables of figures and ratios: `python -m benchmarks`."""

import sys

INTERRUPTED = 130


def main() -> int:
    """Run the command; Ctrl-C ends it quietly, also while it is still being fetched."""
    try:
        from benchmarks import command

        return command.main()
    except KeyboardInterrupt:
        print("benchmarks: interrupted", file=sys.stderr)
        return INTERRUPTED


if __name__ == "__main__":
    sys.exit(main())
