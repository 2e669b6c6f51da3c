"""Files that a page brings by HTTP: streamed to its own place, none too large, none by halves."""

import asyncio
import tempfile
from pathlib import Path
from typing import Final

from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from scenes.page_casts import ENDINGS, LARGEST_BYTES, SLOTS, Place, Places, Slot

#: Longest name of a file that is shown.
_LONGEST_NAME: Final = 200
#: So many files come in at once to one place.
_MOST_AT_ONCE: Final = len(SLOTS)
#: Whoever sends nothing for so long is hung up on.
PATIENCE_S: Final = 30.0


class _TooLarge(Exception):
    pass


async def taken_in(request: Request, places: Places) -> Response:
    """Take a file in; the request is known to come from a page of this server.

    Parameters
    ----------
    request : Request
        Its path names place and slot, its query the name of the file, its body is the file.
    places : Places
        Where files go.
    """
    place = places.find(request.path_params["key"])
    slot = next((one for one in SLOTS if one == request.path_params["slot"]), None)
    if place is None or slot is None:
        return PlainTextResponse("there is no such place for a file\n", 404)
    name = Path(request.query_params.get("name", "").replace("\\", "/")).name
    if Path(name).suffix.lower() not in ENDINGS[slot] or len(name) > _LONGEST_NAME:
        accepted = ", ".join(ENDINGS[slot])
        return PlainTextResponse(f"the name of the file must end with {accepted}\n", 415)
    largest = LARGEST_BYTES[slot]
    too_large = PlainTextResponse(f"larger than {largest / 1e6:g} MB\n", 413)
    announced = request.headers.get("content-length", "")
    if announced.isdecimal() and int(announced) > largest:
        return too_large
    if place.writing >= _MOST_AT_ONCE:
        return PlainTextResponse("too many files at once\n", 429)
    place.writing += 1
    try:
        return await _written(request, places, place, slot, name)
    except _TooLarge:
        return too_large
    except TimeoutError:
        return PlainTextResponse("nothing more came of the file\n", 408)
    except ClientDisconnect:
        return PlainTextResponse("broken off\n", 400)
    except OSError as error:  # a full disk
        return PlainTextResponse(f"the file could not be kept: {error.strerror}\n", 507)
    finally:
        place.writing -= 1


async def _written(
    request: Request, places: Places, place: Place, slot: Slot, name: str
) -> Response:
    """Write the body to a file of its own; only what came whole is used."""
    with tempfile.NamedTemporaryFile(dir=places.folder_of(place), delete=False) as file:
        written = Path(file.name)
        try:
            size = 0
            chunks = request.stream().__aiter__()
            while True:
                try:
                    chunk = await asyncio.wait_for(anext(chunks), PATIENCE_S)
                except StopAsyncIteration:
                    break
                size += len(chunk)
                if size > LARGEST_BYTES[slot]:
                    raise _TooLarge
                file.write(chunk)
        except BaseException:
            written.unlink(missing_ok=True)
            raise
    place.put(slot, written, name)
    return JSONResponse({"bytes": size})
