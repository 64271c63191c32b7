"""What is said of the waiting, in English, by code: problems, cautions, formulas and the sources they rest on."""

WAITING_PROBLEMS: dict[str, str] = {
    "log_lengths": "This log has {times} times and {temperatures} temperatures: each needs the other.",
    "log_not_rising": "The times of this log run backwards: {after} s stands after {before} s.",
    "log_contradicts": "This log gives one moment {first} °C and {second} °C: keep one.",
    "log_nothing": "The file holds no line with a time and a temperature.",
    "log_too_long": "The file is too long: the most is {most} lines with a temperature. Take it in parts.",
    "log_no_time": "No column of times was found: say which one it is.",
    "log_no_temperature": "No column of temperatures was found: say which one it is.",
    "log_one_column": "Column {column} cannot hold both times and temperatures. Choose another one.",
    "log_torn": "A comma may stand both between columns and in the figures: say which column holds the "
    "temperatures, or have the logger write semicolons.",
    "log_short": "Line {line} has {columns} columns, {needed} are needed.",
    "log_wide": "Line {line} has {columns} columns, the header names {needed}. Does a comma stand both between "
    "columns and in the figures?",
    "log_time": "Line {line}: {text} is no date and time that can be read.",
    "log_clock": "Line {line}: {text} has no time of day that can be read.",
    "log_half_day": "Line {line}: after noon the hours begin again at one, and nothing tells morning from afternoon. "
    "Have the logger write 24 hours, or AM and PM.",
    "log_number": "Line {line}: {text} is not a temperature.",
    "log_other_unit": "Line {line}: another unit stands behind the temperature than the file is read in.",
    "log_far": "Line {line}: {celsius} °C is no temperature of a bed or a room. Is the unit right?",
    "log_two_temperatures": "Line {line} gives the moment of line {first} another temperature. Keep one of them.",
    "low_above_high": "The low of {low} °C lies above the high of {high} °C.",
    "log_ahead": "This log goes on after now. Was the logger's clock right?",
    "log_before_placing": "This log of the bed ends before the bed was placed. Was the logger's clock right?",
    "tick_before_placing": "This was ticked before the bed was placed: it does not count.",
    "tick_ahead": "This was ticked after the moment that is asked about: it does not count yet.",
}

WAITING_CAUTIONS: dict[str, str] = {
    "evaporation_act": (
        "Up to {rate:.1f} kg/m² ({rate_lb:.2f} lb/ft²) of water dries off a wet bed in an hour, give or take 40 %: "
        "above {limit:.0f} kg/m² (0.2 lb/ft²) a fresh bed cracks. Put up a windbreak, shade it, and cover it with a "
        "membrane as soon as it is cut off."
    ),
    "evaporation_watch": (
        "Up to {rate:.1f} kg/m² ({rate_lb:.2f} lb/ft²) of water dries off a wet bed in an hour, give or take 40 %: "
        "near the {limit:.0f} kg/m² (0.2 lb/ft²) above which it cracks. Have windbreak, shade and covers at hand."
    ),
    "wind": (
        "Wind up to {wind:.0f} km/h ({wind_mph:.0f} mph) while the bed hardens: it dries the bed unevenly and lifts "
        "covers. Close doors and windows or put up a windbreak, and weigh the covers down."
    ),
    "heat_fresh": (
        "Heat while the bed hardens: wet the subfloor and the sand before, work in the cool of the day, shade the "
        "bed, and damp it with a mist under its cover once it bears that."
    ),
    "warm_the_room": (
        "To keep the bed warm, heat the room and not the bed: no warm air may blow over it, and it stays covered."
    ),
    "unvented_heater": (
        "A heater that burns fuel without a flue gives off carbon monoxide, which kills, and carbon dioxide, which "
        "leaves a fresh bed soft and dusty on top. Use electric heat or one that is vented to the outside."
    ),
    "frozen_subfloor": (
        "Do not place on a frozen subfloor or on frozen ground, and use no frozen sand: thaw and warm it first."
    ),
    "forecast_ends": (
        "What is foretold ends before tile's window does: the days after it are taken to be like its last one, "
        "{held:.1f} °C on average. Enter more days; where it turns colder, it takes longer than told."
    ),
    "temperature_ends": (
        "The last temperature that is known lies before the end of tile's window: from there on {held:.1f} °C is "
        "taken, day and night. Enter the days foretold; where it is colder, it takes longer than told."
    ),
    "temperature_hole": (
        "For {hours:.0f} h while the bed hardens no temperature is known: what lies before and after stands in for "
        "it. Where it is colder, it takes longer than told."
    ),
    "frost_cover": (
        "Frost is foretold before the bed is hard: cover it with insulating blankets, keep it above {limit:.0f} °C."
    ),
    "ticked_early": (
        "Milestones that were ticked before their window opens: {count:.0f}. Try the bed again before anybody relies "
        "on it."
    ),
    "drying_test": (
        "{thickness:.0f} mm of bed may take {early:.0f} to {late:.0f} days to dry, and longer in damp air: a band, "
        "never a date. A moisture test decides before a covering that minds moisture is laid."
    ),
    "tile_same_day": (
        "Tile on the fresh bed: work from kneeling boards, for the bed takes marks, and stop when it no longer gives."
    ),
    "tile_overnight": (
        "Tile on the hardened bed: it needs a bond coat, and the bed must be clean and free of dust. "
        "Damp or dry, as the maker of the bond coat says."
    ),
    "tile_by_section": (
        "The first section no longer takes tile {hours:.1f} h before the last one was in place: tile section by "
        "section, or leave it until it has hardened."
    ),
}

WAITING_FORMULAS: dict[str, tuple[str, str]] = {
    "readiness_tile": ("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what tile needs", "tile_on_cured_bed"),
    "readiness_practice": ("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what the milestone needs", "common_practice"),
    "readiness_room": ("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what the milestone needs", "room"),
    "readiness_tile_factor": ("Σ (T − datum) Δt reaches what tile needs", "tile_on_cured_bed"),
    "readiness_practice_factor": ("Σ (T − datum) Δt reaches what the milestone needs", "common_practice"),
    "readiness_room_factor": ("Σ (T − datum) Δt reaches what the milestone needs", "room"),
    "window_early": (
        "early = when, the foretold time warmer by the doubt, the early share of the need is reached",
        "window_practice",
    ),
    "window_late": (
        "late = when, the foretold time colder by the doubt, a share of the need is reached: "
        "share = 1 + (late share − 1) × widening, a bonded bed's 1.25 times as far",
        "window_practice",
    ),
    "equivalent_age": ("equivalent age = Σ exp(−Q (1/T − 1/Tr)) Δt, T in kelvin", "maturity"),
    "temperature_time": ("temperature-time factor = Σ (T − datum) Δt, none below the datum", "nurse_saul"),
    "working_time": ("working time = working time at Tr / exp(−Q (1/T − 1/Tr))", "common_practice"),
    "evaporation": (
        "evaporation = 5 ((Tc + 18)^2.5 − r (Ta + 18)^2.5) (V + 4) / 1 000 000; Tc bed and Ta air in °C, "
        "r humidity as a fraction, V wind in km/h",
        "evaporation",
    ),
    "drying": (
        "early = 1 day a mm to 75 mm and 2 days a mm beyond; late = 1.5 × (1 day a mm to 40 mm and 2 days beyond)",
        "drying",
    ),
    "fresh_window": (
        "until = when Σ exp(−Q (1/T − 1/Tr)) Δt since that section was placed reaches the hours that it takes tile",
        "common_practice",
    ),
}

WAITING_SOURCES: dict[str, str] = {
    "maturity": (
        "Equivalent age in the form of ASTM C1074, with Q = 5000 K unless the room says otherwise (both from "
        "memory). 34 kJ/mol, 4089 K, was measured on portland-cement mortar (Barnett and others, 2006)."
    ),
    "nurse_saul": (
        "Temperature-time factor (Nurse-Saul), as in Iowa DOT I.M. 383: Σ (T + 10) Δt with a datum of −10 °C; "
        "other datums are in use, −11 °C among them."
    ),
    "tile_on_cured_bed": (
        "Tile on a cured bed: at least 20 h at 21 °C or more, ANSI A108.1B (from memory). "
        "An older bulletin asks 24 h at 70 °F."
    ),
    "window_practice": (
        "Common practice, no source. Widening = thickest bed / 31.75 mm (1 1/4 in, the nominal bed), between 1 and 2."
    ),
    "evaporation": (
        "Uno, ACI Materials Journal, 1998, as quoted; precautions above 1 kg/(m²·h). "
        "Measured rates differ from it by 40 % either way (Hover, 2020)."
    ),
    "drying": (
        "About 1 mm a day to 40 mm, slower beyond: BS 5385-3, as quoted. Sources differ on where it slows down: 40, "
        "50 or 75 mm. Twice as slow beyond, and half as long again at the late end: common practice, no source."
    ),
}
