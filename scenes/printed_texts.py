"""Commands that only print: built-in cases, every setting explained, lessons."""

import argparse


def text_for(arguments: argparse.Namespace) -> str:
    """Return what `cuspway cases`, `cuspway settings` or `cuspway lessons` prints.

    Raises
    ------
    InputError
        There is no such case or lesson, or a lesson that was to be looked through has faults.
    """
    texts = {"cases": _cases, "settings": _settings, "lessons": _lessons}
    return texts[arguments.command](arguments)


def _cases(arguments: argparse.Namespace) -> str:
    from scenes.case_places import case_names, case_text

    return case_text(arguments.name) if arguments.name else "\n".join(case_names()) + "\n"


def _settings(_arguments: argparse.Namespace) -> str:
    from scenes.settings_reference import settings_reference

    return settings_reference()


def _lessons(arguments: argparse.Namespace) -> str:
    from scenes.lessons_command import lessons_text

    return lessons_text(arguments.name, arguments.check, arguments.readings)
