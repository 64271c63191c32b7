/** The shim list: every rail with the lies of its strips and their stations, to read through and to pin up. */
import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { lengthText } from "../../units";
import type { SetStation } from "../../state";
import type { Plan, Rail } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { shimText } from "../common/shims";
import { wasText } from "./Hand";
import { isMoved, standingsOf, type Standing } from "./stations";

interface ShimTableProps {
  readonly plan: Plan;
  readonly set: ReadonlyMap<string, SetStation>;
  readonly onChoose?: (key: string) => void;
}

function markOf({ isStart, station }: Standing, set: SetStation | undefined): string {
  const marks = [isStart ? t("rails.start_mark") : "", station.is_break ? t("rails.break_mark") : "", set ? (isMoved(set, station) ? "\u21bb" : "\u2713") : ""];
  return marks.filter((mark) => mark !== "").map((mark) => ` ${mark}`).join("");
}

interface RowProps extends ShimTableProps {
  readonly standing: Standing;
  readonly open: string | null;
  readonly onOpen: (key: string) => void;
}

/** What the rounded figure stands for, and the way to that station. */
function Exactly({ standing, set, onChoose }: { standing: Standing; set: SetStation | undefined; onChoose: (key: string) => void }) {
  const { station } = standing;
  return (
    <tr class="exactly" data-testid="shim-exactly">
      <th scope="row" colSpan={3}>
        {t("rails.exactly", { shim: station.shim })}
        {set && isMoved(set, station) && <p>{wasText(set, station)}</p>}
        <button type="button" class="button wide" data-testid="go-to-station" onClick={() => onChoose(standing.key)}>{t("rails.go_there")}</button>
      </th>
    </tr>
  );
}

function Row({ standing, set, onChoose, open, onOpen }: RowProps) {
  const { key, station, place, rail } = standing;
  const text = shimText(station);
  const own = set.get(key);
  return (
    <>
      <tr class={own && !isMoved(own, station) ? "set" : ""}>
        <th scope="row">{place}{markOf(standing, own)}</th>
        <td>{lengthText(station.along, reader.value)}</td>
        <td>{onChoose ? <button type="button" class="button shim" aria-expanded={open === key} aria-label={t("rails.open", { rail: rail.id, station: place, shim: text })} onClick={() => onOpen(key)}>{text}</button> : text}</td>
      </tr>
      {open === key && onChoose && <Exactly standing={standing} set={own} onChoose={onChoose} />}
    </>
  );
}

function LieHead({ rail, standing: { lie, lies } }: { rail: Rail; standing: Standing }) {
  if (lies === 1) return null;
  const overlap = rail.settings.find(({ order }) => order === lie)?.overlap ?? 0;
  return <tr class="lie"><th scope="rowgroup" colSpan={3}>{t(overlap > 0 ? "rails.lie_overlap" : "rails.lie", { lie, lies, overlap })}</th></tr>;
}

/** A rail's stations, lie by lie, each in its own order. */
function byLie(standings: readonly Standing[], rail: Rail): readonly Standing[] {
  return standings.filter((standing) => standing.rail === rail).sort((a, b) => a.lie - b.lie || a.place - b.place);
}

export function ShimTable(props: ShimTableProps) {
  const [open, setOpen] = useState<string | null>(null);
  const standings = standingsOf(props.plan);
  const row = { ...props, open, onOpen: (key: string) => setOpen(open === key ? null : key) };
  return (
    <>
      {props.plan.rails.map((rail) => (
        <table key={rail.id} class="shims" data-testid="shims">
          <caption>{t("rails.rail_ramps", { rail: rail.id, volume: rail.ramp_volume })}</caption>
          <thead><tr><th scope="col">{t("rails.station")}</th><th scope="col">{t("rails.along")}</th><th scope="col">{t("rails.shim")}</th></tr></thead>
          <tbody>
            {byLie(standings, rail).map((standing) => (
              <Fragment key={standing.key}>
                {standing.place === 1 && <LieHead rail={rail} standing={standing} />}
                <Row {...row} standing={standing} />
              </Fragment>
            ))}
          </tbody>
        </table>
      ))}
    </>
  );
}

export function ShimDialog({ plan, set, onChoose, onClose }: ShimTableProps & { readonly onChoose: (key: string) => void; readonly onClose: () => void }) {
  return (
    <Dialog title={t("rails.table")} testid="shim-sheet" onClose={onClose}>
      <ShimTable plan={plan} set={set} onChoose={onChoose} />
    </Dialog>
  );
}
