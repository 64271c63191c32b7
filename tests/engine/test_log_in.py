"""A temperature logger's file, however it writes its times, comes in whole or not at all."""

import csv
import io
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.engine.logs import CHICAGO, START, codes_of, moments_of, read, rows_of
from tests.share import share_of

DATES = {
    "%Y-%m-%d": None,
    "%Y/%m/%d": None,
    "%Y.%m.%d": None,
    "%d.%m.%Y": True,
    "%d/%m/%Y": True,
    "%d-%m-%y": True,
    "%m/%d/%Y": False,
    "%m/%d/%y": False,
    "%d-%b-%Y": None,
    "%d %B %Y": None,
    "%b %d, %Y": None,
}
CLOCKS = ["%H:%M:%S", "%H:%M", "%I:%M:%S %p", "%I:%M%p", "%H:%M:%S.%f"]


@dataclass(frozen=True)
class Written:
    """How a file is written, and what is in it."""

    date: str
    clock: str
    separator: str
    decimal: str
    unit: str
    has_bom: bool
    end: str
    is_apart: bool
    has_header: bool
    moments: list[datetime]
    figures: list[float]

    def text(self) -> str:
        """The file as Python's own csv writes it."""
        out = io.StringIO()
        writer = csv.writer(out, delimiter=self.separator, lineterminator=self.end)
        if self.has_header:
            writer.writerow([*(["Date", "Time"] if self.is_apart else ["Date Time"]), f"Temp (°{self.unit})", "RH %"])
        for when, figure in zip(self.moments, self.figures, strict=False):
            told = figure if self.unit == "C" else figure * 1.8 + 32.0
            stamps = [when.strftime(self.date), when.strftime(self.clock)]
            cells = stamps if self.is_apart else [" ".join(stamps)]
            writer.writerow([*cells, f"{told:.4f}".replace(".", self.decimal), "45"])
        return ("\ufeff" if self.has_bom else "") + out.getvalue()


def rising(start: datetime, steps: list[int]) -> list[datetime]:
    minutes = [sum(steps[:n]) for n in range(len(steps))]
    return [start.replace(second=0, microsecond=0) + timedelta(minutes=minute) for minute in minutes]


WRITTEN = st.builds(
    Written,
    date=st.sampled_from(list(DATES)),
    clock=st.sampled_from(CLOCKS),
    separator=st.sampled_from([",", ";", "\t"]),
    decimal=st.sampled_from([".", ","]),
    unit=st.sampled_from(["C", "F"]),
    has_bom=st.booleans(),
    end=st.sampled_from(["\n", "\r\n", "\r"]),
    is_apart=st.booleans(),
    has_header=st.booleans(),
    moments=st.builds(
        rising,
        st.datetimes(datetime(2020, 1, 13), datetime(2029, 11, 20)),  # noqa: DTZ001  (a bare clock)
        st.lists(st.integers(1, 3000), min_size=2, max_size=12),
    ),
    figures=st.lists(st.floats(-10.0, 40.0).map(lambda figure: round(figure, 1)), min_size=12, max_size=12),
)


@given(WRITTEN, st.integers(-720, 720))
@settings(max_examples=share_of(300), deadline=None)
def test_a_file_written_by_another_writer_comes_in_as_it_went_out(written: Written, offset: int) -> None:
    unit = {"C": "celsius", "F": "fahrenheit"}[written.unit]
    answer = read(written.text(), offset_minutes=offset, unit=unit, day_first=DATES[written.date])
    assert answer["problems"] == []
    zone = timezone(timedelta(minutes=offset))
    if answer["clock_set_by"] == 0:
        assert moments_of(answer) == [when.replace(tzinfo=zone) for when in written.moments]
    assert answer["celsius"] == pytest.approx(written.figures[: len(written.moments)], abs=1e-3)


@given(WRITTEN)
@settings(max_examples=share_of(200))
def test_without_a_word_from_anybody_a_file_is_read_right_or_what_is_doubtful_in_it_is_told(written: Written) -> None:
    answer = read(written.text())
    if answer["problems"]:
        assert {code for code, _ in codes_of(answer)} == {"log_far"}, "°F that were taken for °C"
        return
    is_in_time = [moment.replace(tzinfo=None) for moment in moments_of(answer)] == written.moments
    assert is_in_time or answer["day_doubtful"] or answer["clock_set_by"]
    is_as_warm = answer["celsius"] == pytest.approx(written.figures[: len(written.moments)], abs=1e-3)
    assert is_as_warm or answer["unit_reason"] == "size" or answer["temperature_doubtful"]


# Which number is the day.


@pytest.mark.parametrize(
    ("stamps", "day_first", "doubtful"),
    [
        (["14/05/2026 08:00", "14/05/2026 09:00"], True, False),
        (["05/14/2026 08:00", "05/14/2026 09:00"], False, False),
        (["04.05.2026 08:00", "04.05.2026 09:00"], True, False),
        (["04/05/2026 08:00", "05/05/2026 08:00"], True, False),
        (["05/04/2026 08:00", "05/05/2026 08:00"], False, False),
        (["04/05/2026 08:00", "04/05/2026 09:00"], True, True),
        (["04/05/2026 08:00 AM", "04/05/2026 09:00 AM"], False, True),
        (["05/05/2026 08:00", "05/05/2026 09:00"], False, False),
        (["2026-05-04 08:00", "2026-05-04 09:00"], False, False),
    ],
)
def test_the_day_is_told_from_the_file_where_it_can_be_and_else_doubtful(
    stamps: list[str], day_first: bool, doubtful: bool
) -> None:
    answer = read(rows_of(*stamps))
    assert (answer["day_first"], answer["day_doubtful"]) == (day_first, doubtful)


@pytest.mark.parametrize(
    ("day_first", "start"), [(True, "2026-05-04T08:00:00+00:00"), (False, "2026-04-05T08:00:00+00:00")]
)
def test_a_person_says_which_number_is_the_day(day_first: bool, start: str) -> None:
    answer = read(rows_of("04/05/2026 08:00", "04/05/2026 09:00"), day_first=day_first)
    assert (answer["start"], answer["day_doubtful"]) == (start, False)


def test_a_day_that_the_calendar_lacks_is_told_by_line() -> None:
    answer = read(rows_of("14/05/2026 08:00", "14/13/2026 09:00", "31/02/2026 09:00"))
    assert codes_of(answer) == [("log_time", 2), ("log_time", 3)]


# Offsets and clocks that are set.


def test_times_with_their_own_offsets_keep_them() -> None:
    stamps = ("2026-05-14T08:00:00-05:00", "2026-05-14T15:00:00Z", "2026-05-14T18:30:00+0230")
    answer = read(rows_of(*stamps), offset_minutes=60)
    assert datetime.fromisoformat(answer["start"]) == START
    assert answer["seconds"] == [0.0, 7200.0, 10_800.0]
    assert answer["offset_reason"] == "times"


def test_times_without_an_offset_have_the_one_asked_for_or_the_headers() -> None:
    bare = read(rows_of("2026-05-14 08:00", "2026-05-14 09:00"), offset_minutes=-300)
    assert (bare["start"], bare["offset_reason"]) == ("2026-05-14T08:00:00-05:00", "chosen")
    named = read("Date Time, Temp\n" + rows_of("2026-05-14 08:00"), offset_minutes=-300)
    assert named["start"] == bare["start"]
    told = read('"#","Date Time, GMT-06:30","Temp, °C"\n1,2026-05-14 08:00,20\n', offset_minutes=-300)
    assert (told["start"], told["offset_minutes"], told["offset_reason"]) == (
        "2026-05-14T08:00:00-06:30",
        -390,
        "header",
    )


def local_clock(start: datetime, minutes: int, count: int) -> tuple[list[str], list[datetime]]:
    """What a logger in Chicago writes whose clock follows summer time, and the true moments, by zoneinfo."""
    moments = [start + timedelta(minutes=minutes * n) for n in range(count)]
    return [moment.astimezone(CHICAGO).strftime("%Y-%m-%d %H:%M") for moment in moments], moments


@pytest.mark.parametrize("minutes", [10, 15, 30, 60])
def test_in_the_autumn_the_repeated_hour_is_two_hours(minutes: int) -> None:
    stamps, moments = local_clock(datetime(2026, 11, 1, 4, 0, tzinfo=UTC), minutes, 420 // minutes)
    answer = read(rows_of(*stamps), offset_minutes=-300)
    assert moments_of(answer) == moments
    assert (answer["clock_set_by"], answer["order"]) == (-60, "rising")
    assert answer["start"] == "2026-10-31T23:00:00-05:00"
    line = answer["clock_set_line"]
    assert (stamps[line - 2], stamps[line - 1][-5:]) == (max(stamps[: line - 1]), "01:00")


@pytest.mark.parametrize("minutes", [10, 15, 30, 60])
def test_in_the_spring_the_hour_that_was_skipped_is_no_hour(minutes: int) -> None:
    stamps, moments = local_clock(datetime(2026, 3, 8, 4, 0, tzinfo=UTC), minutes, 420 // minutes)
    answer = read(rows_of(*stamps), offset_minutes=-360)
    assert moments_of(answer) == moments
    assert (answer["clock_set_by"], answer["start"]) == (60, "2026-03-07T22:00:00-06:00")


def test_a_lost_hour_at_another_time_is_a_gap_and_not_a_clock_that_was_set() -> None:
    stamps = [f"2026-03-0{day} {hour:02}:{minute:02}" for day, hour in ((4, 1), (4, 3)) for minute in (0, 30)]
    answer = read(rows_of(*stamps))
    assert (answer["clock_set_by"], answer["seconds"][-1]) == (0, 9000.0)


def test_a_logger_that_wrote_newest_first_is_turned_round() -> None:
    answer = read(rows_of("2026-05-14 10:00", "2026-05-14 09:00", "2026-05-14 08:00"))
    assert (answer["order"], answer["start"], answer["celsius"]) == (
        "falling",
        "2026-05-14T08:00:00+00:00",
        [20.2, 20.1, 20.0],
    )


@given(st.permutations(range(8)))
@settings(max_examples=share_of(200))
def test_lines_in_any_order_are_put_in_order_of_time(order: list[int]) -> None:
    lines = [f"2026-05-14 {8 + n:02}:00,{20 + n}\n" for n in range(8)]
    answer = read("".join(lines[n] for n in order))
    assert answer["seconds"] == [3600.0 * n for n in range(8)]
    assert answer["celsius"] == [20.0 + n for n in range(8)]


def test_a_line_that_repeats_a_moment_counts_once_and_another_temperature_for_it_is_told() -> None:
    twice = read("2026-05-14 08:00,20\n2026-05-14 09:00,21\n2026-05-14 09:00,21\n")
    assert (twice["doubled"], twice["celsius"]) == (1, [20.0, 21.0])
    assert codes_of(read("2026-05-14 08:00,20\n2026-05-14 09:00,21\n2026-05-14 08:00,22\n")) == [
        ("log_two_temperatures", 3)
    ]
