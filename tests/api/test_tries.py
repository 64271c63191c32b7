"""The brake on guessing."""

import pytest

from evenbed.access.tries import MOST_ADDRESSES, MOST_TRIES, WINDOW_S, TooManyTriesError, Tries, whose


class Clock:
    """Seconds that pass when told to."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        """What it shows."""
        return self.now


def closed(tries: Tries, address: str) -> bool:
    """True where the next try is refused."""
    try:
        tries.take(address)
    except TooManyTriesError:
        return True
    return False


def guess(tries: Tries, address: str, times: int = MOST_TRIES) -> None:
    """Wrong codes."""
    for _ in range(times):
        tries.take(address)


def test_the_door_opens_again_after_a_while_and_only_the_guesser_waits() -> None:
    clock = Clock()
    tries = Tries(clock)
    guess(tries, "guesser")
    assert not closed(tries, "somebody else")
    clock.now = WINDOW_S - 1
    with pytest.raises(TooManyTriesError) as told:
        tries.take("guesser")
    assert told.value.wait_s == 2
    clock.now = WINDOW_S + 1
    assert not closed(tries, "guesser")


def test_a_right_code_is_given_back() -> None:
    tries = Tries(Clock())
    guess(tries, "somebody", MOST_TRIES - 1)
    for _ in range(MOST_TRIES):
        tries.take("somebody")
        tries.give_back("somebody")
    assert not closed(tries, "somebody")
    assert closed(tries, "somebody")


def test_what_has_run_out_meanwhile_can_be_given_back_too() -> None:
    clock = Clock()
    tries = Tries(clock)
    tries.take("somebody")
    clock.now = WINDOW_S + 1
    tries.give_back("somebody")
    tries.give_back("nobody")
    guess(tries, "somebody")
    assert closed(tries, "somebody")


def test_more_addresses_than_fit_push_out_the_oldest_and_no_more() -> None:
    tries = Tries(Clock())
    for number in range(MOST_ADDRESSES + 1):
        guess(tries, f"address {number}")
    assert not closed(tries, "address 0")
    assert closed(tries, "address 2")
    assert closed(tries, f"address {MOST_ADDRESSES}")


@pytest.mark.parametrize(
    ("one", "other", "is_same"),
    [
        ("2001:db8:1:2::1", "2001:db8:1:2:ffff::9", True),
        ("2001:db8:1:2::1", "2001:db8:1:3::1", False),
        ("192.0.2.1", "192.0.2.2", False),
        ("::ffff:192.0.2.1", "::ffff:192.0.2.2", False),
        ("somewhere", "elsewhere", False),
    ],
)
def test_the_addresses_of_one_ipv6_network_are_one(one: str, other: str, is_same: bool) -> None:
    assert (whose(one) == whose(other)) is is_same
