/** What is stored here: whether the browser promised to keep it, how much it is, and the ways out of and into this phone. */
import { useRef, useState } from "preact/hooks";
import { askToKeep, mayWrite, readUnsentFile, saveLine, storageState, unsentFile, type ReadOutcome, type UnsentFile } from "../../state";
import { numberText } from "../../units";
import { reader, t } from "../../words";
import { saveFile } from "../common/saveFile";
import { sayOnlyLooks } from "../common/saving";

const MEGABYTE = 1_000_000;

function megabytes(bytes: number): string {
  return numberText(bytes / MEGABYTE, 1, reader.value.language);
}

function promiseText(): string {
  const { persisted, askedAt } = storageState.value;
  if (persisted === true) return t("stored.kept");
  if (persisted === null) return t("stored.unknown");
  return askedAt === null ? t("stored.not_asked") : t("stored.refused", { at: askedAt });
}

function Keeping() {
  const { persisted, usedBytes, quotaBytes } = storageState.value;
  return (
    <>
      <p data-testid="promise">{promiseText()}</p>
      {persisted === false && <p class="quiet small">{t("stored.install")}</p>}
      {persisted === false && <button type="button" class="button wide" data-testid="ask-to-keep" onClick={() => void askToKeep()}>{t("stored.ask")}</button>}
      {usedBytes !== null && quotaBytes !== null && <p class="quiet" data-testid="used">{t("stored.used_of", { used: megabytes(usedBytes), quota: numberText(quotaBytes / MEGABYTE, 0, reader.value.language) })}</p>}
    </>
  );
}

function savedText({ count, missing }: UnsentFile): string {
  if (missing.length > 0) return t("unsent.saved_partly", { count, missing: missing.length });
  return count === 0 ? t("unsent.saved_none") : t("unsent.saved", { count });
}

function readText(outcome: ReadOutcome): string {
  return outcome.outcome === "read" ? t("unsent.read", { count: outcome.count }) : t(`unsent.${outcome.outcome}`);
}

/** A way out without any network, in every state of the phone. */
export function SaveUnsent() {
  const [told, setTold] = useState<string | null>(null);
  const save = async () => {
    const file = await unsentFile();
    saveFile(file.name, file.text);
    setTold(savedText(file));
  };
  return (
    <>
      <button type="button" class="button wide" data-testid="save-unsent" onClick={() => void save()}>{t("unsent.save", { waiting: saveLine.value.waiting })}</button>
      {told !== null && <p class="notice" role="status" data-testid="unsent-saved">{told}</p>}
    </>
  );
}

function ReadUnsent() {
  const input = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState<string | null>(null);
  const read = async (file: File | undefined) => { if (file) setTold(readText(await readUnsentFile(await file.text()))); };
  const choose = () => { if (mayWrite.value) input.current?.click(); else sayOnlyLooks(); };
  return (
    <>
      <input ref={input} type="file" accept="application/json,.json" hidden data-testid="unsent-file" onChange={(event) => { void read(event.currentTarget.files?.[0]); event.currentTarget.value = ""; }} />
      <button type="button" class="button wide" data-testid="read-unsent" onClick={choose}>{t("unsent.read_in")}</button>
      {told !== null && <p class="notice" role="status" data-testid="unsent-told">{told}</p>}
    </>
  );
}

export function Stored() {
  return (
    <section class="stack tight">
      <h2>{t("stored.title")}</h2>
      <Keeping />
      <h3>{t("unsent.title")}</h3>
      <p class="quiet small">{t("unsent.more")}</p>
      <SaveUnsent />
      <ReadUnsent />
    </section>
  );
}
