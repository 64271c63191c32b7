/** The shim table: every rail with its stations, to read through and to pin up. */
import { depthText, lengthText } from "../../units";
import { stationKey, type SetStation } from "../../state";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";

interface ShimTableProps {
  readonly plan: Plan;
  readonly set: ReadonlyMap<string, SetStation>;
  readonly onChoose?: (key: string) => void;
}

export function ShimTable({ plan, set, onChoose }: ShimTableProps) {
  return (
    <>
      {plan.rails.map((rail) => (
        <table key={rail.id} class="shims" data-testid="shims">
          <caption>{t("rails.rail", { rail: rail.id })}</caption>
          <thead><tr><th scope="col">{t("rails.station")}</th><th scope="col">{t("rails.along")}</th><th scope="col">{t("rails.shim")}</th></tr></thead>
          <tbody>
            {rail.stations.map(({ along, shim }, index) => {
              const key = stationKey(rail.id, index);
              const text = depthText(shim, reader.value);
              return (
                <tr key={key} class={set.has(key) ? "set" : ""}>
                  <th scope="row">{index + 1}{set.has(key) && ` \u2713`}</th>
                  <td>{lengthText(along, reader.value)}</td>
                  <td>{onChoose ? <button type="button" class="button shim" aria-label={t("rails.open", { rail: rail.id, station: index + 1 })} onClick={() => onChoose(key)}>{text}</button> : text}</td>
                </tr>
              );
            })}
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
