/** The record of a room from first reading to hand-over, as it is read on the screen and printed. */
import { datedText } from "../../units";
import { reader, t } from "../../words";
import { inputsHash, type Content } from "./content";
import { DecisionsPart, FlatnessPart, PhotosPart, WaitingPart } from "./partsOfCheck";
import { RoomPart, SubfloorPart, ThicknessPart, TopPart } from "./partsOfFloor";
import { FillingPart, JointsPart, MaterialPart, RailsPart } from "./partsOfWork";

/** Who signed, as it stands on the copy; `note` may be empty. */
export interface Signed {
  readonly id: string;
  readonly by: string;
  readonly at: string;
  readonly note: string;
  readonly engine: string;
  readonly engineHash: string;
  readonly inputsHash: string;
}

function Head({ content, signed, others }: { content: Content; signed: Signed | null; others: readonly Signed[] }) {
  const { room, job } = content;
  const at = signed?.at ?? content.made_at;
  return (
    <header class="record-head">
      <p class="record-kind">{t(signed ? "record.kind_copy" : "record.kind_now")}</p>
      <h1>{room.name}</h1>
      <p class="record-place">{[job.name, job.place].filter((part) => part !== "").join(" · ")}</p>
      <p>{t(signed ? "record.as_signed" : "record.as_of", { at })}</p>
      {signed && <p class="record-signed" data-testid="record-signed-by">{t("record.signed_by", { person: signed.by, at: signed.at })}{signed.note && ` ${signed.note}`}</p>}
      {!signed && others.map((one) => <p key={one.id} class="record-signed">{t(one.inputsHash === inputsHash(content) ? "record.signed_by" : "record.signed_changed", { person: one.by, at: one.at })}{one.note && ` ${one.note}`}</p>)}
      {!signed && others.length === 0 && <p class="record-none">{t("record.not_signed")}</p>}
    </header>
  );
}

function Foot({ content, signed }: { content: Content; signed: Signed | null }) {
  const engine = signed ?? { engine: content.plan.engine.version, engineHash: content.plan.engine.hash, inputsHash: inputsHash(content) };
  return (
    <footer class="record-foot" data-testid="record-foot">
      <p>{t("record.engine", { version: engine.engine })} <code>{engine.engineHash}</code></p>
      <p>{t("record.inputs")} <code data-testid="record-inputs-hash">{engine.inputsHash}</code></p>
      <p>{t("record.hash_how")}</p>
      <p>{t("record.zone", { zone: content.zone })}</p>
    </footer>
  );
}

export function RecordPaper({ content, signed, others }: { content: Content; signed: Signed | null; others: readonly Signed[] }) {
  return (
    <article class="record-paper" data-testid="record-paper" data-shown={signed ? "copy" : "now"}>
      <Head content={content} signed={signed} others={others} />
      <RoomPart content={content} />
      <SubfloorPart content={content} />
      <TopPart content={content} />
      <ThicknessPart content={content} />
      <MaterialPart content={content} />
      <RailsPart content={content} />
      <FillingPart content={content} />
      <JointsPart content={content} />
      <WaitingPart content={content} />
      <FlatnessPart content={content} />
      <PhotosPart content={content} />
      <DecisionsPart content={content} />
      <Foot content={content} signed={signed} />
    </article>
  );
}

/** What stands at the foot of every printed page. */
export function footText(content: Content, signed: Signed | null): string {
  const hash = (signed?.inputsHash ?? inputsHash(content)).slice(0, 12);
  return t("record.page_foot", { room: content.room.name ?? "", at: datedText(signed?.at ?? content.made_at, reader.value), hash });
}
