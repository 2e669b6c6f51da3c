"""What a browser is shown that does not know the secret of this run: what happened, what to do."""

import base64
import hashlib
from functools import cache
from pathlib import Path
from typing import Final

from starlette.responses import HTMLResponse, Response

_PAGE: Final = Path(__file__).parent / "templates" / "page_refused.html"
_REFUSED: Final = 403


def refused() -> Response:
    """Return a page of its own that says how to get in; it runs no script and loads nothing."""
    content, policy = _page()
    return HTMLResponse(content, _REFUSED, {"Content-Security-Policy": policy})


@cache
def _page() -> tuple[str, str]:
    """Return the page, and what the browser may do with it: no more than use its own style."""
    content = _PAGE.read_text("utf-8")
    style = content.partition("<style>")[2].partition("</style>")[0]
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = (
        f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; "
        "form-action 'none'; frame-ancestors 'none'"
    )
    return content, policy
