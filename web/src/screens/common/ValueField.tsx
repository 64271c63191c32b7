/** A value shown where it is used and changed where it is shown: a tap opens the pad; a changed default says so. */
import { useState } from "preact/hooks";
import { clearDraft, mayWrite } from "../../state";
import { t } from "../../words";
import { Dialog } from "./Dialog";
import { Entry } from "./Entry";
import { sayOnlyLooks } from "./saving";

export interface ValueFieldProps {
  readonly name: string;
  readonly label: string;
  readonly shown: string;
  readonly measure: "length" | "number";
  readonly signed?: boolean;
  readonly note?: string;
  /** Given where the value has a default to fall back to. */
  readonly isChanged?: boolean;
  /** True where there is something to put back, though it is no changed default. */
  readonly canReset?: boolean;
  readonly resetLabel?: string;
  readonly onReset?: () => void;
  /** Why a value cannot be, in words; null where it can. What was typed then stays, to be mended. */
  readonly faultOf?: (value: number) => string | null;
  readonly onValue: (value: number, typed: string) => void;
}

type ValueSheetProps = ValueFieldProps & { readonly onClose: () => void };

/** The pad for one value, as a sheet; what was typed stays typed until it is set. */
export function ValueSheet(props: ValueSheetProps) {
  const [fault, setFault] = useState<string | null>(null);
  const draft = `field:${props.name}`;
  const done = (value: number, typed: string) => {
    const found = props.faultOf?.(value) ?? null;
    setFault(found);
    if (found !== null) return;
    props.onValue(value, typed);
    void clearDraft(draft);
    props.onClose();
  };
  const canReset = props.canReset ?? props.isChanged ?? false;
  const reset = () => { props.onReset?.(); props.onClose(); };
  return (
    <Dialog title={props.label} testid="value" onClose={props.onClose}>
      {props.note && <p class="quiet small">{props.note}</p>}
      <Entry what={t("field.now", { value: props.shown })} draft={draft} measure={props.measure} signed={props.signed ?? false} nextLabel={t("keys.set")} onDone={done} {...(fault === null ? {} : { note: fault })} />
      {canReset && props.onReset && <button type="button" class="button wide" data-testid="value-reset" onClick={reset}>{props.resetLabel ?? t("field.default")}</button>}
    </Dialog>
  );
}

export function ValueField(props: ValueFieldProps) {
  const [open, setOpen] = useState(false);
  const openKeys = () => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); };
  return (
    <>
      <button type="button" class={props.isChanged ? "value-button is-changed" : "value-button"} data-testid={`field-${testidOf(props.name)}`} onClick={openKeys}>
        <span>{props.label}{props.isChanged && <span class="changed"> · {t("changed")}</span>}</span>
        <span class="given">{props.shown}</span>
      </button>
      {open && <ValueSheet {...props} onClose={() => setOpen(false)} />}
    </>
  );
}

/** The part of the name that is the same for every room. */
function testidOf(name: string): string {
  return name.split(":").at(-1) ?? name;
}
