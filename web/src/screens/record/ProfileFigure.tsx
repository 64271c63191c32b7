/** The bed cut through along a line, drawn with its heights exaggerated, and the same in figures. */
import type { Window } from "../../drawing/camera";
import { depthText } from "../../units";
import type { ProfileAnswer } from "../../wire";
import { isOffice, reader, t } from "../../words";
import { placeText } from "../common/roomFigure";
import { ProfileTable } from "../profile/ProfileTable";
import { Run, spokenOf } from "../profile/Run";
import { sectionOf, type Section } from "../profile/section";
import type { Content } from "./content";
import { telling } from "./profileLine";

const HIGH = 190; // px

/** Thickness written where the bed is least and most. */
function Extremes({ answer, section }: { answer: ProfileAnswer; section: Section }) {
  const points = [...answer.runs.flat()].sort((a, b) => a.thickness - b.thickness);
  const ends = [...new Set([points[0], points.at(-1)])].filter((point) => point !== undefined);
  return (
    <>{ends.map(({ along, top, thickness }) => {
      const [x, y] = section.at(along, top);
      return <text key={along} class="profile-figure" x={Math.min(Math.max(x, 34), section.at(answer.length, top)[0] - 24)} y={y - 8}>{depthText(thickness, reader.value)}</text>;
    })}</>
  );
}

function Drawn({ answer, window, spoken }: { answer: ProfileAnswer; window: Window; spoken: string }) {
  const section = sectionOf(answer, window);
  return (
    <svg class="sheet profile-sheet" width={window.width} height={window.height} viewBox={`0 0 ${window.width} ${window.height}`} role="img" aria-label={spoken}>
      {answer.runs.map((run, index) => <Run key={index} run={run} section={section} />)}
      <Extremes answer={answer} section={section} />
      <text x={9} y={12}>A</text><text x={window.width - 9} y={12}>B</text>
    </svg>
  );
}

export function ProfileFigure({ content }: { content: Content }) {
  const answer = content.profile;
  if (!answer || answer.runs.length === 0) return null;
  const { from, to } = telling(content.plan);
  const spoken = spokenOf(answer);
  const screen = { width: isOffice.value ? 700 : 330, height: HIGH };
  return (
    <>
      <figure class="record-figure" data-testid="drawing-profile">
        <figcaption>{t("record.profile")}</figcaption>
        <div class="screen-only"><Drawn answer={answer} window={screen} spoken={spoken} /></div>
        <div class="print-only"><Drawn answer={answer} window={{ width: 700, height: HIGH }} spoken={spoken} /></div>
        <p class="record-said">{t("record.profile_line", { from: placeText(from), to: placeText(to) })} {t("profile.exaggerated", { times: sectionOf(answer, screen).times })}</p>
      </figure>
      <div class="record-scroll record-profile"><ProfileTable answer={answer} /></div>
    </>
  );
}
