"""A page that brings casts of its own, as tests play it."""

import http.client
import json

MEAN_VALUES = ("incisal_point", "molar_right", "molar_left")


class Bringer:
    """A page with a place for its casts."""

    def __init__(self, running, page, key=None):
        self.running, self.page, self.number = running, page, 100
        self.place = self.ask("place", key=key)[-1]

    def ask(self, kind, **content):
        """Send a message; return the headers of all that is answered to it."""
        self.number += 1
        message = {"kind": kind, "number": self.number, **content}
        self.page.channel.send(json.dumps(message))
        heard = [self.page.hear()]
        while heard[-1]["kind"] == "progress":
            heard.append(self.page.hear())
        assert heard[-1]["number"] == self.number
        return heard

    def bring(self, slot, content, name, path=None, headers=None):
        """Send a file; return status and text."""
        address = path or f"{self.place['address']}/{slot}?token={self.running.guard.token}"
        connection = http.client.HTTPConnection("127.0.0.1", self.running.guard.port, timeout=20.0)
        own = {"Origin": f"http://{self.running.own_name}"} if headers is None else headers
        try:
            connection.request("POST", f"{address}&name={name}", body=content, headers=own)
            answer = connection.getresponse()
            return answer.status, answer.read().decode()
        finally:
            connection.close()

    def bring_all(self, casts, labels=True):
        """Send both scans."""
        names = ["upper.obj", "lower.ply", *(["upper.json"] if labels else [])]
        for slot, name in zip(("upper", "lower", "upper_labels"), names, strict=False):
            content = (casts.folder / name).read_bytes()
            assert self.bring(slot, content, name)[0] == 200

    def read(self):
        """Read what was brought; return the last answer."""
        return self.ask("read_casts", of="files", units="mm")[-1]


def picked(casts, names=MEAN_VALUES):
    """Return points as a page sends them."""
    return [{"point": name, "tooth": None, "place": list(casts.points[name])} for name in names]
