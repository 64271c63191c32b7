/** Why there is no bed under a top that is being tried. */
import type { Problem } from "../../wire";
import { problemText } from "../common/plan";

export function TopProblems({ problems }: { problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <ul class="stack tight" role="status" data-testid="top-problems">
      {problems.map((problem) => <li key={`${problem.path} ${problem.code}`} class="caution" data-code={problem.code}>{problemText(problem)}</li>)}
    </ul>
  );
}
