import { expectTypeOf, test } from "vitest";
import type { Change, FieldsByKind, Kind, RoomDocument } from "../../src/wire";
import type { components } from "../../src/wire/generated/service";

/**
 * The compiler judges here: the phone's own words for records against the service's description of them. A field that
 * one side lacks, or takes in another shape, stops `npm run check`.
 */
type Schemas = components["schemas"];
interface Described {
  job: Schemas["JobFields"];
  room: Schemas["RoomFields"];
  reading: Schemas["ReadingFields"];
  placement: Schemas["PlacementFields"];
  batch: Schemas["BatchFields"];
  station: Schemas["StationFields"];
  rail_check: Schemas["RailCheckFields"];
  entry: Schemas["EntryFields"];
  climate: Schemas["ClimateFields"];
  photo: Schemas["PhotoFields"];
  alternative: Schemas["AlternativeFields"];
  gap: Schemas["GapFields"];
  height_line: Schemas["HeightLineFields"];
  temperature_log: Schemas["TemperatureLogFields"];
  forecast_day: Schemas["ForecastDayFields"];
  sign_off: Schemas["SignOffFields"];
  prices: Schemas["PricesFields"];
  supplies: Schemas["SuppliesFields"];
}

/** The same shape as a plain type: an interface never counts as having further keys, which the service allows. */
type Plain<T> = T extends object ? { readonly [P in keyof T]: Plain<T[P]> } : T;

test("phone and service name the same kinds and the same fields of each", () => {
  expectTypeOf<keyof Described>().toEqualTypeOf<Kind>();
  expectTypeOf<Kind>().toEqualTypeOf<Schemas["PulledRecord"]["kind"]>();
  expectTypeOf<keyof FieldsByKind["job"]>().toEqualTypeOf<keyof Described["job"]>();
  expectTypeOf<keyof FieldsByKind["room"]>().toEqualTypeOf<keyof Described["room"]>();
  expectTypeOf<keyof FieldsByKind["reading"]>().toEqualTypeOf<keyof Described["reading"]>();
  expectTypeOf<keyof FieldsByKind["placement"]>().toEqualTypeOf<keyof Described["placement"]>();
  expectTypeOf<keyof FieldsByKind["batch"]>().toEqualTypeOf<keyof Described["batch"]>();
  expectTypeOf<keyof FieldsByKind["station"]>().toEqualTypeOf<keyof Described["station"]>();
  expectTypeOf<keyof FieldsByKind["rail_check"]>().toEqualTypeOf<keyof Described["rail_check"]>();
  expectTypeOf<keyof FieldsByKind["entry"]>().toEqualTypeOf<keyof Described["entry"]>();
  expectTypeOf<keyof FieldsByKind["climate"]>().toEqualTypeOf<keyof Described["climate"]>();
  expectTypeOf<keyof FieldsByKind["photo"]>().toEqualTypeOf<keyof Described["photo"]>();
  expectTypeOf<keyof FieldsByKind["alternative"]>().toEqualTypeOf<keyof Described["alternative"]>();
  expectTypeOf<keyof FieldsByKind["gap"]>().toEqualTypeOf<keyof Described["gap"]>();
  expectTypeOf<keyof FieldsByKind["height_line"]>().toEqualTypeOf<keyof Described["height_line"]>();
  expectTypeOf<keyof FieldsByKind["temperature_log"]>().toEqualTypeOf<keyof Described["temperature_log"]>();
  expectTypeOf<keyof FieldsByKind["forecast_day"]>().toEqualTypeOf<keyof Described["forecast_day"]>();
  expectTypeOf<keyof FieldsByKind["sign_off"]>().toEqualTypeOf<keyof Described["sign_off"]>();
  expectTypeOf<keyof FieldsByKind["prices"]>().toEqualTypeOf<keyof Described["prices"]>();
  expectTypeOf<keyof FieldsByKind["supplies"]>().toEqualTypeOf<keyof Described["supplies"]>();
});

test("whatever the phone sends is something the service takes", () => {
  expectTypeOf<Plain<FieldsByKind["job"]>>().toExtend<Described["job"]>();
  expectTypeOf<Plain<FieldsByKind["room"]>>().toExtend<Described["room"]>();
  expectTypeOf<Plain<FieldsByKind["reading"]>>().toExtend<Described["reading"]>();
  expectTypeOf<Plain<FieldsByKind["placement"]>>().toExtend<Described["placement"]>();
  expectTypeOf<Plain<FieldsByKind["batch"]>>().toExtend<Described["batch"]>();
  expectTypeOf<Plain<FieldsByKind["station"]>>().toExtend<Described["station"]>();
  expectTypeOf<Plain<FieldsByKind["rail_check"]>>().toExtend<Described["rail_check"]>();
  expectTypeOf<Plain<FieldsByKind["entry"]>>().toExtend<Described["entry"]>();
  expectTypeOf<Plain<FieldsByKind["climate"]>>().toExtend<Described["climate"]>();
  expectTypeOf<Plain<FieldsByKind["photo"]>>().toExtend<Described["photo"]>();
  expectTypeOf<Plain<FieldsByKind["alternative"]>>().toExtend<Described["alternative"]>();
  expectTypeOf<Plain<FieldsByKind["gap"]>>().toExtend<Described["gap"]>();
  expectTypeOf<Plain<FieldsByKind["height_line"]>>().toExtend<Described["height_line"]>();
  expectTypeOf<Plain<FieldsByKind["temperature_log"]>>().toExtend<Described["temperature_log"]>();
  expectTypeOf<Plain<FieldsByKind["forecast_day"]>>().toExtend<Described["forecast_day"]>();
  expectTypeOf<Plain<FieldsByKind["sign_off"]>>().toExtend<Described["sign_off"]>();
  expectTypeOf<Plain<FieldsByKind["prices"]>>().toExtend<Described["prices"]>();
  expectTypeOf<Plain<FieldsByKind["supplies"]>>().toExtend<Described["supplies"]>();
  expectTypeOf<Change>().toExtend<Schemas["Change"]>();
  expectTypeOf<RoomDocument["readings"]>().toExtend<Schemas["Document"]["readings"]>();
});
