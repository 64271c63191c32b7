/** Signing off: by name, with what is unfinished told first. The person decides; what is signed is a dated copy. */
import { session, setDraft, signRoom } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import { copyFrom, inputsHash, MOST_COPY, type Content } from "./content";
import { unfinishedOf } from "./unfinished";

function Unfinished({ content }: { content: Content }) {
  const left = unfinishedOf(content);
  if (left.length === 0) return <p class="notice" data-testid="nothing-left">{t("record.nothing_left")}</p>;
  return (
    <section class="stack tight">
      <h3>{t("record.left")}</h3>
      <ul class="cautions" data-testid="unfinished">{left.map((line) => <li key={line} class="caution">{line}</li>)}</ul>
    </section>
  );
}

export function SignSheet({ content, onClose }: { content: Content; onClose: (id: string | null) => void }) {
  const [name, note] = [`sign-name:${content.room_id}`, `sign-note:${content.room_id}`];
  const by = typedIn(name, session.value.person ?? "").trim();
  const copy = copyFrom(content);
  const isTooLarge = copy.length > MOST_COPY;
  const sign = async () => {
    const { version, hash } = content.plan.engine;
    const signed = { by, note: typedIn(note).trim() || null, engine: version, engine_hash: hash, inputs_hash: inputsHash(content), copy };
    let made = "";
    if (!(await saved(signRoom(content.room_id, signed, { draft: note }).then((id) => { made = id; })))) return;
    await setDraft(name, "");
    onClose(made);
  };
  return (
    <Dialog title={t("record.sign")} testid="sign-sheet" onClose={() => onClose(null)}>
      <div class="stack">
        <p>{t("record.sign_more")}</p>
        <Unfinished content={content} />
        {isTooLarge && <p class="caution" role="alert" data-testid="copy-too-large">{t("record.too_large", { most: MOST_COPY, length: copy.length })}</p>}
        <TextField label={t("record.sign_name")} draft={name} testid="sign-name" otherwise={session.value.person ?? ""} autocapitalize="words" />
        <TextField label={t("record.sign_note")} draft={note} testid="sign-note" />
        <button type="button" class="button main wide" data-testid="sign-now" disabled={by === "" || isTooLarge} onClick={() => void sign()}>{t("record.sign_now")}</button>
      </div>
    </Dialog>
  );
}
