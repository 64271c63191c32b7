"""What a company buys: in which packages, and for how much. One record of each kind a company, with a fixed id.

The ids are the same for every company and on every phone, so that phones that were apart merge field by field.
"""

from collections.abc import Mapping

from pydantic import BaseModel, Field

from evenbed.wire.values import Fields, Name, Number

PRICES_ID = "0197a1c0-5e00-7c00-8000-000000000001"
SUPPLIES_ID = "0197a1c0-5e00-7c00-8000-000000000002"
COMPANYS: Mapping[str, str] = {"prices": PRICES_ID, "supplies": SUPPLIES_ID}
"""The kinds of which a company has one record, and its id."""


class SupplyChoices(BaseModel):
    """What is used besides cement, lime, sand and water, as it is sold, and what is lost of it."""

    membrane_roll_width: Number | None = Field(None, alias="supplies.membrane.roll_width")
    membrane_roll_length: Number | None = Field(None, alias="supplies.membrane.roll_length")
    membrane_lap: Number | None = Field(None, alias="supplies.membrane.lap")
    membrane_turned_up: Number | None = Field(None, alias="supplies.membrane.turned_up")
    membrane_thickness: Number | None = Field(None, alias="supplies.membrane.thickness")
    reinforcement_sheet_width: Number | None = Field(None, alias="supplies.reinforcement.sheet_width")
    reinforcement_sheet_length: Number | None = Field(None, alias="supplies.reinforcement.sheet_length")
    reinforcement_lap: Number | None = Field(None, alias="supplies.reinforcement.lap")
    reinforcement_waste: Number | None = Field(None, alias="supplies.reinforcement.waste")
    perimeter_strip_piece: Number | None = Field(None, alias="supplies.perimeter_strip.piece")
    perimeter_strip_waste: Number | None = Field(None, alias="supplies.perimeter_strip.waste")
    bond_coat_bag_mass: Number | None = Field(None, alias="supplies.bond_coat.bag_mass")
    bond_coat_density: Number | None = Field(None, alias="supplies.bond_coat.density")
    bond_coat_waste: Number | None = Field(None, alias="supplies.bond_coat.waste")
    tile_width: Number | None = Field(None, alias="supplies.tile.width")
    tile_box_area: Number | None = Field(None, alias="supplies.tile.box_area")
    tile_waste: Number | None = Field(None, alias="supplies.tile.waste")


class SuppliesFields(Fields, SupplyChoices):
    """The company's packages and wastes, for everybody to see; rooms may differ."""


class PricesFields(Fields):
    """What things cost the company, by the package; an hour of labour, and the margin. For foremen alone."""

    currency: Name | None = Field(None, alias="prices.currency")
    cement_bag: Number | None = Field(None, alias="prices.cement_bag")
    lime_bag: Number | None = Field(None, alias="prices.lime_bag")
    sand: Number | None = Field(None, alias="prices.sand", description="A cubic metre, damp and loose")
    membrane_roll: Number | None = Field(None, alias="prices.membrane_roll")
    reinforcement_sheet: Number | None = Field(None, alias="prices.reinforcement_sheet")
    perimeter_strip_piece: Number | None = Field(None, alias="prices.perimeter_strip_piece")
    bond_coat_bag: Number | None = Field(None, alias="prices.bond_coat_bag")
    tile_box: Number | None = Field(None, alias="prices.tile_box")
    labour_hour: Number | None = Field(None, alias="prices.labour.hour")
    labour_set_up: Number | None = Field(None, alias="prices.labour.set_up")
    labour_per_area: Number | None = Field(None, alias="prices.labour.per_area")
    labour_per_volume: Number | None = Field(None, alias="prices.labour.per_volume")
    labour_chipping: Number | None = Field(None, alias="prices.labour.chipping")
    labour_chipping_depth: Number | None = Field(None, alias="prices.labour.chipping_depth")
    margin: Number | None = Field(None, alias="prices.margin")
