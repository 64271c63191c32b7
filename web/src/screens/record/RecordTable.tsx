/** One table of the record, whole: its header stands again on every page it runs on to. Where there is nothing, that is said. */
import type { ComponentChildren } from "preact";
import { headText, shownText, type Measure, type Table } from "./table";

const FIGURES: ReadonlySet<Measure> = new Set(["count", "number", "length", "depth", "height", "fine", "rule", "temperature", "share", "percent", "speed", "volume", "area", "mass", "load", "hours", "fall"]);

function kindOf(measure: Measure): string {
  return FIGURES.has(measure) ? "in-figures" : measure;
}

/** Columns that may be left out stand only where some row has something to say in them. */
function toldColumns({ columns, rows }: Table): readonly number[] {
  return columns.flatMap(({ isOptional }, column) => (isOptional !== true || rows.some((row) => (row[column] ?? "") !== "") ? [column] : []));
}

export function RecordTable({ table, children }: { table: Table; children?: ComponentChildren }) {
  const { id, title, columns, rows, none } = table;
  const shown = toldColumns(table).map((column) => ({ column, ...(columns[column] ?? { title: "", measure: "text" as const }) }));
  return (
    <section class="record-part" data-testid={`record-${id}`}>
      <h3>{title}</h3>
      {children}
      {rows.length === 0 ? <p class="record-none">{none}</p> : (
        <div class="record-scroll">
          <table class="record-table">
            <thead><tr>{shown.map((column) => <th key={column.column} scope="col" class={kindOf(column.measure)}>{headText(column)}</th>)}</tr></thead>
            <tbody>
              {rows.map((row, index) => (
                <tr key={index}>{shown.map(({ column, measure }) => <td key={column} class={kindOf(measure)}>{shownText(row[column], measure)}</td>)}</tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

/** A few facts side by side. */
export function Facts({ facts }: { facts: readonly (readonly [string, string])[] }) {
  return <dl class="record-facts">{facts.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}</dl>;
}
