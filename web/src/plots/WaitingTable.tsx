/** The waiting in figures: the windows, then temperature and age at moments evenly apart. */
import { numberText, shortMoment, temperatureText } from "../units";
import type { WaitingAnswer } from "../wire";
import { reader, t, told } from "../words";
import { gathered, tablePoints } from "./waitingScene";

const MOST_ROWS = 40;

function whenText(at: string | null): string {
  return at === null ? t("none_yet") : shortMoment(at, reader.value);
}

function Windows({ answer }: { answer: WaitingAnswer }) {
  return (
    <table class="shims plot-table">
      <caption>{t("plot.table_windows")}</caption>
      <thead><tr><th scope="col">{t("plot.table_milestone")}</th><th scope="col">{t("bar.early")}</th><th scope="col">{t("bar.likely")}</th><th scope="col">{t("bar.late")}</th></tr></thead>
      <tbody>
        {answer.countdown.map(({ milestone, early, likely, late }) => (
          <tr key={milestone}><th scope="row">{told("milestone", milestone, {}, milestone)}</th><td>{whenText(early)}</td><td>{whenText(likely)}</td><td>{whenText(late)}</td></tr>
        ))}
      </tbody>
    </table>
  );
}

export function WaitingTable({ answer }: { answer: WaitingAnswer }) {
  const byFactor = answer.method === "temperature_time";
  return (
    <div class="plot-tables" data-testid="plot-figures">
      <Windows answer={answer} />
      <table class="shims plot-table">
        <caption>{t("plot.table_curve")}</caption>
        <thead><tr><th scope="col">{t("plot.table_when")}</th><th scope="col">{t("plot.table_temperature")}</th><th scope="col">{byFactor ? t("plot.table_factor") : t("plot.table_age")}</th><th scope="col">{t("plot.table_kind")}</th></tr></thead>
        <tbody>
          {tablePoints(answer.curve, MOST_ROWS).map((point) => (
            <tr key={point.at}>
              <th scope="row">{shortMoment(point.at, reader.value)}</th>
              <td>{temperatureText(point.celsius, reader.value)}</td>
              <td>{numberText(gathered(answer, point), 1, reader.value.language)}</td>
              <td>{t(point.measured ? "plot.measured" : "plot.foretold")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
