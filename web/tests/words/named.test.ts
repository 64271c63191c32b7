import { expect, expectTypeOf, test } from "vitest";
import type { WordKey } from "../../src/words";
import { fieldName, valueText } from "../../src/screens/history/values";
import { moneyText } from "../../src/screens/common/money";
import { isOffice, reader, t } from "../../src/words";
import type { components } from "../../src/wire/generated/service";

/** Every field of every record, by the service's own description: a field without a word stops `npm run check`. */
type Schemas = components["schemas"];
interface Described {
  job: Schemas["JobFields"];
  /** A room's supplies are called what the company's are. */
  room: Omit<Schemas["RoomFields"], Exclude<keyof Schemas["SuppliesFields"], "deleted">>;
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
type FieldWord = { [K in keyof Described]: `named.${K}.${keyof Described[K] & string}` }[keyof Described];
type NamedWord = Exclude<Extract<WordKey, `named.${string}`>, "named.unknown">;

test("every field that travels has a word of its own, and no word names a field that does not", () => {
  expectTypeOf<NamedWord>().toEqualTypeOf<FieldWord>();
});

test("every reason of a refusal, role and code of the office has a sentence", () => {
  expectTypeOf<`refusal.${NonNullable<Schemas["PushResult"]["reason"]>}`>().toExtend<WordKey>();
  expectTypeOf<`role.${Schemas["SessionReply"]["role"]}`>().toExtend<WordKey>();
});

test("a value is told in the person's units and language", () => {
  const told = () => [valueText("room", "bed.minimum_thickness", 31.75), valueText("room", "mix.air", 0.1), valueText("room", "bed.top", { kind: "level", height: null }), valueText("climate", "wind", 16.09344)];
  reader.value = { units: "imperial", language: "en" };
  expect(told()).toEqual(["1\u00a01/4\u2033", "10\u202f%", "Lowest that works", "10\u202fmph"]);
  reader.value = { units: "metric", language: "es" };
  expect(told()).toEqual(["32\u202fmm", "10\u202f%", "Lo más bajo posible", "16\u202fkm/h"]);
  reader.value = { units: "imperial", language: "en" };
});

test("what is bought is told alike for a room and for the company, and prices in the company's currency", () => {
  expect([fieldName("room", "supplies.tile.waste"), valueText("room", "supplies.tile.waste", 0.15)]).toEqual(["Tile, waste", "15\u202f%"]);
  expect([fieldName("supplies", "supplies.tile.waste"), valueText("supplies", "supplies.tile.waste", 0.15)]).toEqual(["Tile, waste", "15\u202f%"]);
  expect([fieldName("prices", "prices.cement_bag"), valueText("prices", "prices.cement_bag", 1234.5)]).toEqual(["Cement, a bag", "1,234.50"]);
  expect([moneyText(7, "$"), moneyText(-7, "EUR"), moneyText(0, "")]).toEqual(["$\u202f7.00", "\u22127.00\u202fEUR", "0.00"]);
});

test("nothing is told as nothing, and what no version knows neither breaks the screen nor shows a raw name", () => {
  expect(valueText("room", "note", "")).toBe("nothing");
  expect(valueText("room", "outline", null)).toBe("nothing");
  expect(valueText("room", "outline", "round")).toBe("round");
  expect(valueText("room", "bed.minimum_thickness", "thick")).toBe("thick");
  expect(valueText("room", "openings", { wall: 1 })).toBe('{"wall":1}');
  expect(fieldName("room", "mix.colour")).toBe("Something this version does not know");
});

test("a wide window is a computer, any other a phone, in every sentence that says where things are", () => {
  expect(t("save.here")).toBe("Saved on this phone");
  isOffice.value = true;
  expect(t("save.waiting", { waiting: 3 })).toBe("Saved on this computer · 3 waiting");
  isOffice.value = false;
});
