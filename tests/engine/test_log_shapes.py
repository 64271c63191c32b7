"""Shapes in which loggers write: each is read right, read with its doubt told, or refused with its reason."""

from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import Json
from tests.engine.logs import codes_of, moments_of, read
from tests.share import share_of

EIGHT = datetime(2026, 5, 14, 8, 0)  # noqa: DTZ001  (a bare clock, as a logger has)
CELSIUS = (18.5, 18.7, 19.1, 19.4)
MINUTES = [EIGHT + timedelta(minutes=10 * n) for n in range(4)]
DAYS = [EIGHT + timedelta(hours=20 * n) for n in range(4)]
SPREADSHEETS_ZERO = datetime(1899, 12, 30)  # noqa: DTZ001


def lines(date: str, moments: list[datetime] | None = None, separator: str = ",") -> str:
    told = zip(moments or MINUTES, CELSIUS, strict=True)
    return "".join(f"{m.strftime(date)}{separator}{c}\n" for m, c in told)


def with_comma(text: str) -> str:
    """The figures behind the semicolons with a decimal comma."""
    rows = [line.rpartition(";") for line in text.splitlines()]
    return "".join(f"{stamp};{figure.replace('.', ',')}\n" for stamp, _, figure in rows)


def table(header: str, row: str, moments: list[datetime] | None = None) -> str:
    """A header, and a row for each moment `m`, with its figure `c` and its number `n`."""
    told = enumerate(zip(moments or MINUTES, CELSIUS, strict=True), start=1)
    return header + "\n" + "".join(row.format(m=m, c=c, n=n) + "\n" for n, (m, c) in told)


def serial(moment: datetime) -> str:
    return f"{(moment - SPREADSHEETS_ZERO) / timedelta(days=1):.9f}"


def spanish(moment: datetime) -> str:
    half = "a" if moment.hour < 12 else "p"
    return f"{moment:%d/%m/%Y} {moment.hour % 12 or 12}:{moment:%M:%S}\u202f{half}.\u00a0m."


FULL = "Time,Temp\n" + lines("%Y-%m-%d %H:%M")
THREE = "Time,Temp,RH\n" + lines("%Y-%m-%d %H:%M").replace("\n", ",45.0\n")
READ = {
    "semicolons and decimal commas": (
        with_comma("Datum;Temperatur [°C]\n" + lines("%d.%m.%Y %H:%M", None, ";")),
        MINUTES,
    ),
    "tabs, a byte order mark and CR LF": (
        "\ufeff" + table("Time\tTemp C", "{m:%Y-%m-%d %H:%M}\t{c}").replace("\n", "\r\n"),
        MINUTES,
    ),
    "every cell in quotes": (
        table('"#","Date Time","Temp, °C","RH, %"', '"{n}","{m:%m/%d/%y %I:%M:%S %p}","{c}","45.1"'),
        MINUTES,
    ),
    "a page before the table, with figures and dates": (
        "Interval,600\nStart time,2026-05-14 08:00:00\nMax,19.4\n\n" + FULL,
        MINUTES,
    ),
    "spreadsheet days": (
        "Date,Temp\n" + "".join(f"{serial(m)},{c}\n" for m, c in zip(DAYS, CELSIUS, strict=True)),
        DAYS,
    ),
    "spreadsheet days with commas": (
        "Fecha;Temp\n" + "".join(f"{serial(m)};{c}\n" for m, c in zip(DAYS, CELSIUS, strict=True)).replace(".", ","),
        DAYS,
    ),
    "ISO without marks": ("time,temp\n" + lines("%Y%m%dT%H%M%S"), MINUTES),
    "fourteen digits": ("time,temp\n" + lines("%Y%m%d%H%M%S"), MINUTES),
    "twelve digits": ("time,temp\n" + lines("%Y%m%d%H%M"), MINUTES),
    "eight digits and a clock apart": (table("date,time,temp", "{m:%Y%m%d},{m:%H:%M},{c}"), MINUTES),
    "Spanish halves of the day with narrow blanks": (
        "Fecha;Temperatura (°C)\n" + "".join(f"{spanish(m)};{c}\n" for m, c in zip(DAYS, CELSIUS, strict=True)),
        DAYS,
    ),
    "the year first over several days": (lines("%y/%m/%d %H:%M", DAYS), DAYS),
    "the year first after points over several days": (with_comma(lines("%y.%m.%d %H:%M", DAYS, ";")), DAYS),
    "the day first, the year short": (lines("%d/%m/%y %H:%M"), MINUTES),
    "both units": (table("Time,Temp (°F),Temp (°C)", "{m:%Y-%m-%d %H:%M},,{c}"), MINUTES),
    "humidity before it": (table("Time;rF [%];Temp. [°C]", "{m:%d.%m.%Y %H:%M};45.2;{c}"), MINUTES),
    "lowest and highest beside it": (table("Time,Min,Max,Avg", "{m:%Y-%m-%d %H:%M},17.5,20.5,{c}"), MINUTES),
    "alarms before it": (table("Time,High alarm temp,Low alarm temp,Temp", "{m:%Y-%m-%d %H:%M},40,2,{c}"), MINUTES),
    "a degree that came out wrong": (table("Time,Temp (\ufffdC)", "{m:%Y-%m-%d %H:%M},{c}"), MINUTES),
    "blank lines and lines of separators": (FULL.replace("\n", "\n\n,\n"), MINUTES),
    "the header again in the middle": (
        FULL + "Time,Temp\n2026-05-14 08:40,19.6\n",
        [*MINUTES, MINUTES[-1] + timedelta(minutes=10)],
    ),
    "no end of the last line": (FULL.rstrip("\n"), MINUTES),
    "elapsed seconds and a number of the device beside it": (
        table("Elapsed,Device,Time,Temp", "600,1712345678,{m:%Y-%m-%d %H:%M},{c}"),
        MINUTES,
    ),
    **{
        f"the sign {s}": (table("Time,Value", "{m:%Y-%m-%d %H:%M},{c}" + s), MINUTES)
        for s in (" ℃", "°", "'C", "\ufffdC", "˚C")
    },
}


@pytest.mark.parametrize(("text", "moments"), READ.values(), ids=READ.keys())
def test_a_file_is_read_right_and_without_a_doubt(text: str, moments: list[datetime]) -> None:
    answer = read(text)
    assert answer["problems"] == []
    assert [moment.replace(tzinfo=None) for moment in moments_of(answer)] == moments
    assert answer["celsius"][: len(CELSIUS)] == list(CELSIUS)
    assert (answer["unit"], answer["passed_over"]) == ("celsius", 0)
    assert not any(answer[f"{what}_doubtful"] for what in ("day", "time", "temperature"))


DOUBTED = {
    "the year first on one day": (lines("%y/%m/%d %H:%M"), {"day_doubtful": True, "year_first": True}),
    "the year first after a header": (
        "Date,T\n" + lines("%y-%m-%d %H:%M"),
        {"day_doubtful": True, "year_first": True},
    ),
    "a day that could be the year": (
        lines("%d/%m/%y %H:%M", [m.replace(day=24) for m in MINUTES]),
        {"day_doubtful": True, "year_first": False, "day_first": True},
    ),
    "two temperatures": (
        table("Time,Probe 1 temp,Probe 2 temp", "{m:%Y-%m-%d %H:%M},{c},22.5"),
        {"temperature_doubtful": True, "temperature_column": 1},
    ),
    "two columns of figures without a name": (
        table("Time,Ch1,Ch2", "{m:%Y-%m-%d %H:%M},{c},22.5"),
        {"temperature_doubtful": True},
    ),
    "lowest and highest alone": (
        table("Time,Temp max,Temp min", "{m:%Y-%m-%d %H:%M},{c},12.5"),
        {"temperature_doubtful": True},
    ),
    "two times": (
        table("Time (UTC),Time (local),Temp", "{m:%Y-%m-%d %H:%M},2026-05-14 03:{m:%M},{c}"),
        {"time_doubtful": True, "time_column": 0, "offset_minutes": 0, "offset_reason": "header"},
    ),
    "a summary": (FULL + "\nMinimum,18.5\nMaximum,19.4\nAverage,18.9\n", {"passed_over": 3}),
    "a summary in words": (FULL + "End of data\n4 readings\n", {"passed_over": 2}),
    "a summary with a date": (FULL + "Highest,19.4,2026-05-14 08:30\n", {"passed_over": 1}),
    "a row without its last cell": (THREE[:-6], {"passed_over": 1}),
    **{f"cut off by {n} signs": (FULL[:-n], {"passed_over": 1}) for n in (3, 4, 6, 8, 12, 20)},
    "cut off before the figure": (FULL[:-5], {"missing": 1}),
    "lines in no order": (FULL + "2026-05-14 07:50,18.0\n2026-05-14 07:40,18.0\n", {"order": "mixed"}),
    "no unit": (FULL, {"unit_reason": "size"}),
}


@pytest.mark.parametrize(("text", "told"), DOUBTED.values(), ids=DOUBTED.keys())
def test_what_could_be_meant_otherwise_is_told(text: str, told: Json) -> None:
    answer = read(text)
    assert answer["problems"] == []
    assert {key: answer[key] for key in told} == told


REFUSED: dict[str, tuple[str, str]] = {
    "a text in two octets a sign, read in one": ("T\x00i\x00m\x00e\x00,\x00T\x00\n\x001\x00", "log_nothing"),
    "ten digits with the year first": ("time,temp\n" + lines("%y%m%d%H%M"), "log_no_time"),
    "ten digits with the day first": ("time,temp\n" + lines("%d%m%y%H%M"), "log_no_time"),
    "kelvin": (table("Time,Temp (K)", "{m:%Y-%m-%d %H:%M},291.6"), "log_far"),
    "tenths of a degree": (table("Time,Temp x10", "{m:%Y-%m-%d %H:%M},185"), "log_far"),
    "spreadsheet days apart from their time": (table("Date,Time,Temp", "46156,0.333333,{c}"), "log_nothing"),
    "twelve hours without halves": (
        "Time,Temp\n" + lines("%m/%d/%Y %I:%M", [EIGHT + timedelta(hours=2 * n) for n in range(4)]),
        "log_half_day",
    ),
    "elapsed seconds alone": ("Elapsed (s),Temp\n0,18.5\n600,18.7\n", "log_nothing"),
    "a zone in letters": ("Time,Temp\n" + lines("%Y-%m-%d %H:%M CDT"), "log_nothing"),
    "a decimal comma between commas": (FULL.replace("18.", "18,").replace("19.", "19,"), "log_wide"),
    "JSON": ('[{"time": "2026-05-14T08:00:00", "temp": 18.5}]', "log_nothing"),
    "a cut line with its end": (FULL[:-9] + "\n", "log_short"),
}


@pytest.mark.parametrize(("text", "code"), REFUSED.values(), ids=REFUSED.keys())
def test_what_cannot_be_told_is_refused_with_its_reason(text: str, code: str) -> None:
    assert code in [found for found, _ in codes_of(read(text))]


def test_a_person_says_that_the_year_stands_first_or_that_it_does_not() -> None:
    text = lines("%y/%m/%d %H:%M")
    first = read(text, year_first=True)
    assert (first["start"][:10], first["year_first"], first["day_doubtful"]) == ("2026-05-14", True, False)
    last = read(text, day_first=True, year_first=False)
    assert (last["start"][:10], last["year_first"], last["day_doubtful"]) == ("2014-05-26", False, False)
    twice = table("Time,A,B", "{m:%Y-%m-%d %H:%M},{c},22.5")
    assert not read(twice, temperature_column=2)["temperature_doubtful"]


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("Time (UTC),Temp\n", 0),
        ("Date Time GMT-06:30,Temp\n", -390),
        ("Time zone,UTC+05:30\n\nTime,Temp\n", 330),
        ("Zona horaria: UTC-5\n\nTime,Temp\n", -300),
        ("Time zone,local\n\nTime,Temp\n", None),
        ("Serial,UTC-44\n\nTime,Temp\n", None),
        ("Time (local),Temp,Uploaded (UTC)\n", None),
    ],
)
def test_a_zone_named_over_the_times_or_on_the_page_before_holds(text: str, minutes: int | None) -> None:
    rows = lines("%Y-%m-%d %H:%M").replace("\n", ",later\n" if "Uploaded" in text else "\n")
    answer = read(text + rows, offset_minutes=60)
    told = (60, "chosen") if minutes is None else (minutes, "header")
    assert (answer["offset_minutes"], answer["offset_reason"]) == told


@given(
    start=st.datetimes(datetime(2020, 1, 1), datetime(2049, 11, 1)),  # noqa: DTZ001
    order=st.sampled_from(["%y/%m/%d", "%d/%m/%y", "%m/%d/%y", "%y-%m-%d", "%d.%m.%y"]),
    hours=st.lists(st.integers(1, 40), min_size=3, max_size=8),
)
@settings(max_examples=share_of(400))
def test_a_short_year_is_never_taken_for_a_day_without_a_doubt(start: datetime, order: str, hours: list[int]) -> None:
    minute = start.replace(second=0, microsecond=0)
    moments = [minute + timedelta(hours=sum(hours[:n])) for n in range(len(hours))]
    answer = read("".join(f"{m.strftime(order)} {m:%H:%M},20.5\n" for m in moments))
    right = [m.replace(tzinfo=None) for m in moments_of(answer)] == moments if not answer["problems"] else True
    assert right or answer["day_doubtful"] or answer["clock_set_by"]


@given(first=st.integers(1_000_000_000, 2_500_000_000), step=st.sampled_from([60, 300, 600, 900, 1800, 3600]))
@settings(max_examples=share_of(200))
def test_seconds_since_1970_are_not_taken_for_a_clock_in_digits(first: int, step: int) -> None:
    answer = read("time,temp\n" + "".join(f"{first + step * n},20.5\n" for n in range(12)))
    assert answer["problems"] == []
    assert datetime.fromisoformat(answer["start"]).timestamp() == first
