/** What a company buys: in which packages, and for how much. One record of each kind a company, with a fixed id. */

/** As the service knows them: phones that were apart write one and the same record, and merge field by field. */
export const PRICES_ID = "0197a1c0-5e00-7c00-8000-000000000001";
export const SUPPLIES_ID = "0197a1c0-5e00-7c00-8000-000000000002";

/** Lengths mm, masses kg, areas m², density kg/m³, waste as a fraction. A room's own go before the company's. */
export interface SupplyChoices {
  "supplies.membrane.roll_width": number;
  "supplies.membrane.roll_length": number;
  "supplies.membrane.lap": number;
  "supplies.membrane.turned_up": number;
  "supplies.membrane.thickness": number;
  "supplies.reinforcement.sheet_width": number;
  "supplies.reinforcement.sheet_length": number;
  "supplies.reinforcement.lap": number;
  "supplies.reinforcement.waste": number;
  "supplies.perimeter_strip.piece": number;
  "supplies.perimeter_strip.waste": number;
  "supplies.bond_coat.bag_mass": number;
  "supplies.bond_coat.density": number;
  "supplies.bond_coat.waste": number;
  "supplies.tile.width": number;
  "supplies.tile.box_area": number;
  "supplies.tile.waste": number;
}

/** The company's packages and wastes, for everybody to see; foremen write them. */
export interface SuppliesFields extends SupplyChoices {
  deleted: boolean;
}

/** What a package costs; hours of labour; the margin as a fraction. For foremen alone. */
export interface PricesFields {
  "prices.currency": string;
  "prices.cement_bag": number;
  "prices.lime_bag": number;
  /** A cubic metre, damp and loose. */
  "prices.sand": number;
  "prices.membrane_roll": number;
  "prices.reinforcement_sheet": number;
  "prices.perimeter_strip_piece": number;
  "prices.bond_coat_bag": number;
  "prices.tile_box": number;
  "prices.labour.hour": number;
  "prices.labour.set_up": number;
  "prices.labour.per_area": number;
  "prices.labour.per_volume": number;
  "prices.labour.chipping": number;
  "prices.labour.chipping_depth": number;
  "prices.margin": number;
  deleted: boolean;
}
