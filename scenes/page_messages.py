"""What the page may say: every message is checked before anything looks at it."""

from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, TypeAdapter, ValidationError

from kinematics.trial.settings import MOST_CHANGES as MOST_TRIED
from scenes.page_casts_messages import CastsRequest
from scenes.page_frames import frame

#: A message is a page of settings; more than this was meant to be something else.
LARGEST_MESSAGE_BYTES: Final = 65_536
MOST_CHANGES: Final = 200
#: The case of the file named on the command line.
GIVEN_CASE: Final = "given"

#: How far the page opens the jaw at most, at the lower incisal point.
MOST_OPENING_MM: Final = 40.0

_LARGEST_NUMBER: Final = 1e9
_EXACT_IN_A_BROWSER: Final = 2**53 - 1

#: Path of a setting in a case file: denture_bases[0].scheme, dentition.wear_cusps_mm.46 MB.
Key = Annotated[
    str,
    StringConstraints(
        min_length=1,
        max_length=80,
        pattern=r"^[A-Za-z0-9_]+(\[[0-9]{1,3}\])*(\.[A-Za-z0-9_ \[\]]+)*$",
    ),
]
Text = Annotated[str, StringConstraints(max_length=200, pattern=r"^[^\x00-\x1f\x7f]*$")]
Whole = Annotated[int, Field(ge=-_LARGEST_NUMBER, le=_LARGEST_NUMBER)]
Number = Annotated[float, Field(ge=-_LARGEST_NUMBER, le=_LARGEST_NUMBER)]
Value = bool | Whole | Number | Text | None
#: One change of a tooth, as its table in a case file; what it may hold the case says.
Tried = Annotated[
    dict[Annotated[str, StringConstraints(pattern=r"^[a-z_]{1,20}$")], Value], Field(max_length=10)
]


class State(BaseModel):
    """What the page shows: one case with changed settings, and where the jaw stands.

    Attributes
    ----------
    number : int
        Of the message; answers carry it.
    case : str
        Name of a built-in case, `GIVEN_CASE`, or a case made of the page's own casts.
    changes : mapping of path to value
        Settings that differ from the case; null: not set.
    trial : list or None
        Changes of teeth in their order, in place of those that the case has; null: as in the case.
    movement : str
        Excursion the jaw is in, by its name.
    start : "MI" or "CR"
        Where the excursion starts.
    travel_mm : float, 0 to 50
        How far the lower incisal point has travelled.
    opening_mm : float, 0 to 40
        How far the lower incisal point is opened beyond closure.
    map : "pose", "excursion" or "none"
        Which gap map lies on the teeth.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)

    number: Annotated[int, Field(ge=0, le=_EXACT_IN_A_BROWSER)]
    case: Annotated[str, StringConstraints(pattern=r"^[a-z0-9_]{1,60}$")]
    changes: Annotated[dict[Key, Value], Field(max_length=MOST_CHANGES)] = Field(
        default_factory=dict
    )
    trial: Annotated[list[Tried], Field(max_length=MOST_TRIED)] | None = None
    movement: Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9 .,°()+-]{1,60}$")]
    start: Literal["MI", "CR"]
    travel_mm: Annotated[float, Field(ge=0.0, le=50.0)]
    opening_mm: Annotated[float, Field(ge=0.0, le=MOST_OPENING_MM)]
    map: Literal["pose", "excursion", "none"]


class LessonAsked(BaseModel):
    """The round of a lesson that a page is at.

    Attributes
    ----------
    name : str
        Of the lesson, as the page was told it.
    round : int
        Which of its rounds, from 0.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)

    name: Annotated[str, StringConstraints(pattern=r"^[a-z0-9_]{1,60}$")]
    round: Annotated[int, Field(ge=0, le=20)]


class Show(State):
    """Show this state; the newest one is meant.

    Attributes
    ----------
    lesson : LessonAsked or None
        The round of a lesson that is to be told of beside it.
    """

    kind: Literal["show"]
    lesson: LessonAsked | None = None


class ReportRequest(State):
    """Make the full report of this state."""

    kind: Literal["report"]


class CaseFileRequest(State):
    """Write this state as a case file."""

    kind: Literal["case_file"]


class SureRequest(State):
    """Study how sure the findings of this state are."""

    kind: Literal["how_sure"]


class LeaveSureRequest(BaseModel):
    """Leave off the study of how sure findings are.

    Attributes
    ----------
    number : int
        Of the message.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)

    kind: Literal["leave_sure"]
    number: Annotated[int, Field(ge=0, le=_EXACT_IN_A_BROWSER)]


FileRequest = ReportRequest | CaseFileRequest
Said = Show | FileRequest | SureRequest | LeaveSureRequest | CastsRequest
Message = Annotated[Said, Field(discriminator="kind")]

_ADAPTER: Final[TypeAdapter[Said]] = TypeAdapter(Message)


class _Numbered(BaseModel):
    """As much of a malformed message as an answer needs."""

    model_config = ConfigDict(strict=True, extra="ignore")

    number: Annotated[int, Field(ge=0, le=_EXACT_IN_A_BROWSER)]


class NotUnderstood(ValueError):
    """A message that is none of those the page may send.

    Parameters
    ----------
    text : str
        What is wrong, in one line.
    number : int or None
        Number of the message, where that much could be read.
    """

    def __init__(self, text: str, number: int | None) -> None:
        super().__init__(text)
        self.number = number


def first_show(case: str, travel_mm: float = 2.0) -> Show:
    """Return the state that a page begins with: the first case in the middle of a movement."""
    return Show(
        kind="show",
        number=0,
        case=case,
        movement="right lateral",
        start="MI",
        travel_mm=travel_mm,
        opening_mm=0.0,
        map="pose",
    )


def read_message(text: str) -> Said:
    """Return the message that a text from the page is.

    Raises
    ------
    NotUnderstood
        No JSON, no message the page may send, or one with impossible values.
    """
    try:
        return _ADAPTER.validate_json(text)
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False, include_context=False)[0]
        where = ".".join(str(step)[:80] for step in first["loc"][1:])
        reason = f"{where}: {first['msg']}" if where else first["msg"]
    told = " ".join(reason.split())[:200]
    raise NotUnderstood(f"message not understood ({told})", _number_of(text))


def _number_of(text: str) -> int | None:
    try:
        return _Numbered.model_validate_json(text).number
    except ValidationError:
        return None


def fault(number: int | None, text: str, keys: tuple[str, ...] = ()) -> bytes:
    """Return the message that something cannot be shown."""
    return frame({"kind": "fault", "number": number, "text": text, "keys": list(keys)})


def progress(number: int, words: str, share: float | None = None) -> bytes:
    """Return the message that something is being done."""
    return frame({"kind": "progress", "number": number, "words": words, "share": share})


def file_ready(number: int, name: str, address: str) -> bytes:
    """Return the message that a file waits to be fetched."""
    told = {"kind": "file", "number": number, "name": name, "address": address}
    return frame(told)
