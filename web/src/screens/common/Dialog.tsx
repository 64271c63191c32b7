/** A sheet over the screen: for one value, one explanation, one choice. Closing it loses nothing. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { t } from "../../words";

interface DialogProps {
  readonly title: string;
  readonly testid: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

export function Dialog({ title, testid, onClose, children }: DialogProps) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    dialog?.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      class="dialog" ref={box} aria-label={title} data-testid={testid}
      onCancel={(event) => { event.preventDefault(); onClose(); }}
      onClick={(event) => { if (event.target === box.current) onClose(); }}
    >
      <div class="dialog-body">
        <header class="dialog-head">
          <h2>{title}</h2>
          <button type="button" class="button icon" aria-label={t("close")} data-testid={`${testid}-close`} onClick={onClose}>{"\u2715"}</button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
