/** The profile under the drawing: the bed between floor and top, and its thickness where the finger stands. */
import { useState } from "preact/hooks";
import { useSize } from "../../drawing/useSize";
import { depthText, heightText, lengthText } from "../../units";
import type { ProfileAnswer } from "../../wire";
import { reader, t } from "../../words";
import { NoAnswer } from "../common/Notes";
import { ProfileTable } from "./ProfileTable";
import { Run, spokenOf } from "./Run";
import { cutAt, sectionOf } from "./section";
import type { Profile } from "./useProfile";

function SectionDrawing({ answer, along, onAlong }: { answer: ProfileAnswer; along: number; onAlong: (along: number) => void }) {
  const [box, window] = useSize();
  const section = sectionOf(answer, window);
  const moved = (event: PointerEvent & { readonly currentTarget: Element }) => {
    if (event.buttons > 0) onAlong(section.alongAt(event.clientX - event.currentTarget.getBoundingClientRect().left));
  };
  const cut = cutAt(answer, along);
  const [x] = section.at(along, 0);
  return (
    <>
      <div class="profile-box" ref={box}>
        <svg class="sheet profile-sheet" width={window.width} height={window.height} role="img" aria-label={spokenOf(answer)} data-testid="profile-section" onPointerDown={moved} onPointerMove={moved}>
          {answer.runs.map((run, index) => <Run key={index} run={run} section={section} />)}
          <path class="finger" d={`M${x} 0V${window.height}`} />
          {cut && [cut.top, cut.subfloor].map((z, index) => <circle key={index} cx={x} cy={section.at(along, z)[1]} r={5} />)}
          <text x={9} y={10}>A</text><text x={window.width - 9} y={10}>B</text>
        </svg>
      </div>
      <p class="quiet small" data-testid="profile-times">{t("profile.exaggerated", { times: section.times })}</p>
    </>
  );
}

function thicknessText(answer: ProfileAnswer, along: number): string {
  const cut = cutAt(answer, along);
  if (!cut) return t("profile.no_floor");
  return cut.thickness < 0 ? t("profile.no_bed", { by: -cut.thickness }) : depthText(cut.thickness, reader.value);
}

function Here({ answer, along }: { answer: ProfileAnswer; along: number }) {
  const cut = cutAt(answer, along);
  return (
    <div class="profile-here" aria-live="polite">
      <span class="label">{t("profile.thickness")} · {t("profile.here", { along })}</span>
      <span class="number" data-testid="profile-thickness">{thicknessText(answer, along)}</span>
      <span class="label" data-testid="profile-heights">{cut ? `${t("profile.top")} ${heightText(cut.top, reader.value)} · ${t("profile.subfloor")} ${heightText(cut.subfloor, reader.value)}` : "\u00a0"}</span>
    </div>
  );
}

function Along({ answer, along, onAlong }: { answer: ProfileAnswer; along: number; onAlong: (along: number) => void }) {
  return (
    <input
      type="range" class="slide" aria-label={t("profile.place")} aria-valuetext={`${lengthText(along, reader.value)}: ${thicknessText(answer, along)}`}
      data-testid="profile-along" min={0} max={answer.length} step={answer.length / 200} value={along} onInput={(event) => onAlong(Number(event.currentTarget.value))}
    />
  );
}

function Shown({ answer, profile }: { answer: ProfileAnswer; profile: Profile }) {
  const [isTable, setTable] = useState(false);
  const { along, setAlong } = profile;
  if (answer.runs.length === 0) return <p class="notice">{t("profile.none")}</p>;
  return (
    <>
      <h3>{t("profile.title", { length: answer.length })}</h3>
      <Here answer={answer} along={along} />
      <SectionDrawing answer={answer} along={along} onAlong={setAlong} />
      <Along answer={answer} along={along} onAlong={setAlong} />
      <button type="button" class="button wide" data-testid="profile-table" aria-expanded={isTable} onClick={() => setTable(!isTable)}>{t("profile.table")}</button>
      {isTable && <ProfileTable answer={answer} />}
    </>
  );
}

function Answered({ profile }: { profile: Profile }) {
  const { asked } = profile;
  if (!asked) return <p class="notice" role="status">{t("profile.how")}</p>;
  return asked.outcome === "answered" ? <Shown answer={asked.answer} profile={profile} /> : <NoAnswer asked={asked} />;
}

/** Begins and ends it, beside the drawing. */
export function ProfileButton({ profile }: { profile: Profile }) {
  const { isOn, turn } = profile;
  return <button type="button" class="button wide" aria-pressed={isOn} data-testid="profile-mode" onClick={() => turn(!isOn)}>{t(isOn ? "profile.done" : "profile.draw")}</button>;
}

/** The profile itself, first among the figures: under the drawing on a phone, beside it in a wide window. */
export function ProfilePanel({ profile }: { profile: Profile }) {
  return profile.isOn ? <section class="stack tight profile" data-testid="profile"><Answered profile={profile} /></section> : null;
}
