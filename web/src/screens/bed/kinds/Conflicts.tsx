/** Heights that cannot all hold: which they are, what each alone would have to give, and one tap to let it give. */
import type { Problem, Top } from "../../../wire";
import { t } from "../../../words";
import { problemText } from "../../common/plan";
import { isConflict, reliefFor, type Relief } from "./relief";

interface ConflictsProps {
  readonly problems: readonly Problem[];
  readonly top: Top;
  readonly onRelief: (relief: Relief) => void;
}

export function Conflicts({ problems, top, onRelief }: ConflictsProps) {
  const found = problems.filter(isConflict);
  if (found.length === 0) return null;
  return (
    <section class="stack tight" role="status" data-testid="conflicts">
      <h3>{t("conflict.title")}</h3>
      <p>{t("conflict.more")}</p>
      <ul class="lines">
        {found.map((problem) => {
          const relief = reliefFor(problem, top);
          return (
            <li key={`${problem.path} ${problem.code}`} class="line tall">
              <span>{problemText(problem)}</span>
              {relief && <button type="button" class="button" data-testid={`relieve-${problem.code}`} onClick={() => onRelief(relief)}>{t("conflict.let")}</button>}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
