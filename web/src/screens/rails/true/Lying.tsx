/** How the rails lie as far as the readings tell, whether that is good enough, and what the levels themselves are out by. */
import { errorText } from "../../../units";
import type { Plan, Truing } from "../../../wire";
import { reader, t } from "../../../words";
import { Figure } from "../../common/Figure";
import { endArrow, hasMoves, railOf } from "./correcting";
import { lengthOfLevel, type OwnLevel } from "./levels";
import { signedText } from "./telling";

export function Worst({ plan, truing }: { plan: Plan; truing: Truing }) {
  const text = (mm: number) => errorText(mm, reader.value);
  const isLast = truing.rails.every(({ rail, lie }) => lie >= (railOf(plan, rail)?.settings.length ?? 1));
  return (
    <>
      {truing.is_good_enough && <p class="notice good" data-testid="good-enough">{t(isLast ? "truing.good_enough" : "truing.good_enough_so_far", { tolerance: truing.tolerance })}</p>}
      <div class="figures">
        <Figure label={t("truing.worst")} value={text(truing.worst)} plan={plan} path="truing.worst" />
        <Figure label={t("truing.worst_after")} value={text(truing.worst_after)} plan={plan} path="truing.worst_after" />
      </div>
    </>
  );
}

export function RailsLie({ plan, truing }: { plan: Plan; truing: Truing }) {
  const read = truing.rails.filter(({ checks }) => checks > 0);
  if (read.length === 0) return null;
  return (
    <table class="shims lying" data-testid="rails-lie">
      <caption>{t("truing.lie")}</caption>
      <thead><tr><th scope="col">{t("truing.rail")}</th><th scope="col">{t("truing.beginning")}</th><th scope="col">{t("truing.its_end")}</th><th scope="col">±</th></tr></thead>
      <tbody>
        {read.map(({ rail, lie, from_off: from, to_off: to, sigma }) => {
          const line = railOf(plan, rail);
          return (
            <tr key={rail}>
              <th scope="row">{rail}{line && hasMoves(line) && <span class="quiet small"> · {t("rails.lie", { lie, lies: line.settings.length })}</span>}</th>
              <td>{line && endArrow(line, "from")} {signedText(from)}</td>
              <td>{line && endArrow(line, "to")} {signedText(to)}</td>
              <td>{errorText(sigma, reader.value)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** `error` mm over `over` mm of the level's length. */
export function levelText({ level, error, over, flips }: { readonly level: string; readonly error: number; readonly over: number; readonly flips: number }): string {
  if (flips === 0) return t("truing.never_turned", { level });
  const isNothing = errorText(error, reader.value) === errorText(0, reader.value);
  return isNothing ? t("truing.level_true", { level, over }) : t("truing.level_out", { level, error, over });
}

export function LevelErrors({ truing, levels }: { truing: Truing; levels: readonly OwnLevel[] }) {
  return (
    <>
      {truing.levels.map(({ level, per_metre: slope, flips }) => {
        const over = lengthOfLevel(levels, level);
        const error = (Math.abs(slope) * over) / 1000;
        return <p key={level} class="notice" data-testid="level-error">{levelText({ level, error, over, flips })}</p>;
      })}
    </>
  );
}
