"""What a bed is built of besides its mortar, as it is sold, and what things cost.

Prices are in the company's own currency, null where nobody said; the engine never guesses a price.
"""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, length, ratio


def _price(about: str) -> float | None:
    """A price, or null where nobody said."""
    price: float | None = described(None, about=about, low=0.0, high=10_000_000.0)
    return price


@dataclass(frozen=True)
class Membrane:
    """Cleavage membrane under an unbonded bed, from the roll."""

    roll_width: float = length(1828.8, "Width of a roll", low=100.0, high=20_000.0)
    roll_length: float = length(15_240.0, "Length of a roll", low=500.0, high=500_000.0)
    lap: float = length(101.6, "How far one width laps the next", high=1000.0)
    turned_up: float = length(50.8, "How far it turns up at the walls", high=1000.0)
    thickness: float = length(0.0, "Its thickness, 0 for a film that counts as nothing", high=20.0)


@dataclass(frozen=True)
class Reinforcement:
    """Sheets of wire fabric or mesh in the middle of an unbonded bed."""

    sheet_width: float = length(762.0, "Width of a sheet", low=100.0, high=20_000.0)
    sheet_length: float = length(2438.4, "Length of a sheet", low=100.0, high=50_000.0)
    lap: float = length(50.8, "How far sheets lap: one mesh", high=1000.0)
    waste: float = ratio(0.05, "Fraction cut off and not used", high=2.0)


@dataclass(frozen=True)
class PerimeterStrip:
    """Compressible strip along the walls and round what stands in the bed."""

    piece: float = length(15_240.0, "Length of a piece or roll", low=100.0, high=500_000.0)
    waste: float = ratio(0.05, "Fraction cut off and not used", high=2.0)


@dataclass(frozen=True)
class BondCoat:
    """Bond coat under the tile."""

    bag_mass: float = described(22.67961850, about="Mass of one bag", unit="kg", low=0.1, high=2000.0)
    density: float = described(
        1500.0, about="Mass of powder in a cubic metre spread", unit="kg/m3", low=100.0, high=5000.0
    )
    waste: float = ratio(0.1, "Fraction mixed and not spread", high=2.0)


@dataclass(frozen=True)
class TileSupply:
    """Tile as it is sold."""

    width: float | None = length(None, "Width of a tile, null for that of the longest edge", low=5.0, high=5000.0)
    box_area: float = described(1.0, about="Area that one box covers", unit="m2", low=0.001, high=1000.0)
    waste: float = ratio(0.1, "Fraction cut off or broken", high=2.0)


@dataclass(frozen=True)
class Supplies:
    """Everything besides cement, lime, sand and water."""

    membrane: Membrane = described(Membrane(), about="Cleavage membrane, under an unbonded bed")
    reinforcement: Reinforcement = described(Reinforcement(), about="Reinforcement, in an unbonded bed")
    perimeter_strip: PerimeterStrip = described(PerimeterStrip(), about="Perimeter strip")
    bond_coat: BondCoat = described(BondCoat(), about="Bond coat")
    tile: TileSupply = described(TileSupply(), about="Tile")


@dataclass(frozen=True)
class Labour:
    """Hours of one person, and what an hour costs."""

    hour: float | None = _price("An hour of one person")
    set_up: float = described(4.0, about="Hours a room takes whatever its size", unit="h", low=0.0, high=1000.0)
    per_area: float = described(0.6, about="Hours a square metre", unit="h/m2", low=0.0, high=100.0)
    per_volume: float = described(6.0, about="Hours a cubic metre in place", unit="h/m3", low=0.0, high=1000.0)
    chipping: float = described(1.5, about="Hours a square metre chipped", unit="h/m2", low=0.0, high=100.0)
    chipping_depth: float = described(
        0.1, about="Hours a square metre and millimetre chipped", unit="h/m2/mm", low=0.0, high=100.0
    )


@dataclass(frozen=True)
class Prices:
    """What things cost, by the package they are sold in."""

    currency: str = described("", about="Code or sign of the currency")
    cement_bag: float | None = _price("A bag of cement")
    lime_bag: float | None = _price("A bag of lime")
    sand: float | None = _price("A cubic metre of sand, damp and loose")
    membrane_roll: float | None = _price("A roll of membrane")
    reinforcement_sheet: float | None = _price("A sheet of reinforcement")
    perimeter_strip_piece: float | None = _price("A piece of perimeter strip")
    bond_coat_bag: float | None = _price("A bag of bond coat")
    tile_box: float | None = _price("A box of tile")
    labour: Labour = described(Labour(), about="Labour")
    margin: float = ratio(0.0, "Added to everything, as a fraction", high=10.0)
