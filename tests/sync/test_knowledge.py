"""What a file says that the maker of an edit had seen, and what is read out of it again."""

from hypothesis import given
from hypothesis import strategies as st

from evenbed.sync.knowledge import Told, known_from_file, last_known

ANA, BEN, CAL = "a", "b", "c"
devices = st.sampled_from([ANA, BEN, CAL])
stories = st.lists(st.tuples(devices, st.none() | devices), max_size=8).map(
    lambda told: [Told(n, f"change {n}", maker, bringer) for n, (maker, bringer) in enumerate(told, start=1)]
)


def test_what_a_phone_brought_in_a_file_it_knew_before_it_had_seen_any_number() -> None:
    story = [Told(1, "by Ben, in Ana's file", BEN, ANA), Told(2, "by Cal", CAL, None)]
    assert last_known(story, 0, ANA) == ("by Ben, in Ana's file",)
    assert last_known(story, 0, CAL) == ()
    assert last_known(story, 2, CAL) == ("by Ben, in Ana's file", "by Cal")


@given(story=stories, seen=st.integers(0, 8), device=devices)
def test_a_file_tells_of_each_maker_all_up_to_the_last_that_was_seen_or_brought_and_no_more(
    story: list[Told], seen: int, device: str
) -> None:
    known = [one for one in story if one.sequence <= seen or one.bringer == device]
    told = known_from_file(story, last_known(story, seen, device))
    assert told == {
        one.sequence
        for one in story
        if any(other.maker == one.maker and other.sequence >= one.sequence for other in known)
    }
