/** The tables of a record as files: one text each, or all of them in one zip. */
import { strToU8, zipSync } from "fflate";
import type { Content } from "./content";
import { csvText, type CsvHow } from "./csv";
import { cellsOf, type Table } from "./table";
import {
  cautionsTable, decisionsTable, fallsTable, flatnessTable, gapsTable, linesTable, milestonesTable, temperaturesTable, touchesTable, waterTable, workTable,
} from "./tablesOfCheck";
import { doorwaysTable, fixturesTable, readingsTable, wallsTable } from "./tablesOfFloor";
import {
  alternativesTable, batchesTable, checksTable, dayBookTable, edgesTable, jointsTable, materialNumbers, sectionsTable, stationsTable, truingsTable,
} from "./tablesOfWork";

const TABLES: readonly ((content: Content) => Table)[] = [
  wallsTable, doorwaysTable, fixturesTable, (content) => readingsTable(content), alternativesTable, materialNumbers, stationsTable, checksTable, truingsTable, sectionsTable,
  batchesTable, dayBookTable, jointsTable, edgesTable, temperaturesTable, milestonesTable, flatnessTable, fallsTable, waterTable, gapsTable, linesTable, workTable, touchesTable,
  cautionsTable, decisionsTable,
];

/** All tables, those with no rows too: an empty one says that there was nothing. */
export function tablesOf(content: Content): readonly Table[] {
  return TABLES.map((table) => table(content));
}

export function tableText(table: Table, how: CsvHow): string {
  const { header, rows } = cellsOf(table);
  return csvText(header, rows, how);
}

/** A folder of them, packed. */
export function zippedTables(tables: readonly Table[], how: CsvHow): Uint8Array<ArrayBuffer> {
  return new Uint8Array(zipSync(Object.fromEntries(tables.map((table) => [`${table.id}.csv`, strToU8(tableText(table, how))]))));
}
