"""Who is let in, under which name, and how often they may speak."""

import pytest

from scenes.page_guard import Bucket, Guard, Pace, TooMany


@pytest.mark.parametrize(
    ("host", "port", "named", "fits"),
    [
        ("127.0.0.1", 8000, "127.0.0.1:8000", True),
        ("127.0.0.1", 8000, "localhost:8000", True),
        ("127.0.0.1", 8000, "LocalHost:8000", True),
        ("127.0.0.1", 8000, "[::1]:8000", True),
        ("127.0.0.1", 8000, "127.0.0.1:8001", False),
        ("127.0.0.1", 8000, "127.0.0.1", False),
        ("127.0.0.1", 8000, "", False),
        ("127.0.0.1", 8000, "evil.example:8000", False),
        ("127.0.0.1", 8000, "127.0.0.1.evil.example:8000", False),
        ("127.0.0.1", 8000, "evil.example@127.0.0.1:8000", False),
        ("127.0.0.1", 8000, "127.0.0.1:8000:8000", False),
        ("127.0.0.1", 8000, "192.168.1.5:8000", False),
        ("127.0.0.1", 8000, "127.0.0.1:٨٠٠٠", False),
        ("127.0.0.1", 80, "127.0.0.1", True),
        ("::1", 8000, "[::1]:8000", True),
        ("192.168.1.5", 8000, "192.168.1.5:8000", True),
        ("192.168.1.5", 8000, "localhost:8000", False),
        ("192.168.1.5", 8000, "evil.example:8000", False),
        ("teacher.school", 8000, "teacher.school:8000", True),
        ("0.0.0.0", 8000, "192.168.1.5:8000", True),
        ("0.0.0.0", 8000, "localhost:8000", True),
        ("0.0.0.0", 8000, "evil.example:8000", False),
    ],
)
def test_only_names_of_this_server_fit(host, port, named, fits):
    """A name from elsewhere that was made to lead here is not one of them."""
    assert Guard(host, port).allows_host({"host": named}) is fits


@pytest.mark.parametrize(
    ("origin", "fits"),
    [
        ("http://127.0.0.1:8000", True),
        ("http://localhost:8000", False),  # another origin than the page was fetched from
        ("https://127.0.0.1:8000", False),
        ("http://127.0.0.1:8001", False),
        ("http://evil.example", False),
        ("null", False),
        ("", False),
    ],
)
def test_a_web_socket_is_opened_by_a_page_of_the_same_name(origin, fits):
    """The origin that the browser states is the name the request was sent to."""
    headers = {"host": "127.0.0.1:8000", "origin": origin}
    assert Guard("127.0.0.1", 8000).allows_origin(headers) is fits


def test_a_web_socket_without_an_origin_is_refused():
    """Browsers always state it."""
    assert not Guard("127.0.0.1", 8000).allows_origin({"host": "127.0.0.1:8000"})


def test_the_secret_is_needed_and_made_anew():
    """All of it, and nothing else."""
    one, other = Guard("127.0.0.1", 8000), Guard("127.0.0.1", 8000)
    assert one.token != other.token
    assert len(one.token) >= 32
    assert one.allows_token({"token": one.token})
    for wrong in ("", one.token[:-1], one.token + "x", other.token, "ü\udcff"):
        assert not one.allows_token({"token": wrong.encode("utf-8", "replace").decode()})
    assert not one.allows_token({})


@pytest.mark.parametrize(
    ("host", "address", "private"),
    [
        ("127.0.0.1", "http://127.0.0.1:8000/?token=secret", True),
        ("127.0.0.2", "http://127.0.0.2:8000/?token=secret", True),
        ("localhost", "http://localhost:8000/?token=secret", True),
        ("::1", "http://[::1]:8000/?token=secret", True),
        ("0.0.0.0", "http://127.0.0.1:8000/?token=secret", False),
        ("192.168.1.5", "http://192.168.1.5:8000/?token=secret", False),
    ],
)
def test_the_address_can_be_opened_on_this_machine(host, address, private):
    """And whether others can reach it is known."""
    guard = Guard(host, 8000, "secret")
    assert guard.address() == address
    assert guard.is_private is private


def test_a_burst_is_let_through_and_then_a_steady_flow():
    """What comes faster waits until its token is there."""
    bucket = Bucket(Pace(each_second=10.0, at_once=5, patience=3), now_s=100.0)
    assert [bucket.wait_s(100.0) for _ in range(5)] == [0.0] * 5
    assert bucket.wait_s(100.0) == pytest.approx(0.1)
    assert bucket.wait_s(100.0) == pytest.approx(0.2)
    assert bucket.wait_s(100.5) == 0.0
    assert [bucket.wait_s(101.0 + n / 10) for n in range(50)] == [0.0] * 50


def test_whoever_does_not_slow_down_is_put_off():
    """After a number of messages in a row that had to wait."""
    bucket = Bucket(Pace(each_second=10.0, at_once=5, patience=3), now_s=0.0)
    now_s = 0.0
    for _ in range(8):
        now_s += bucket.wait_s(now_s)
    with pytest.raises(TooMany):
        bucket.wait_s(now_s)
