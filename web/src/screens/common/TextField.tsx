/** A line of text, kept as a draft at every key press. */
import { getDraft, setDraft } from "../../state";

interface TextFieldProps {
  readonly label: string;
  readonly draft: string;
  readonly testid: string;
  readonly otherwise?: string;
  readonly autocapitalize?: "sentences" | "words" | "characters";
}

/** What stands in the field: the draft, or else what was there before. */
export function typedIn(draft: string, otherwise = ""): string {
  return getDraft(draft) ?? otherwise;
}

export function TextField({ label, draft, testid, otherwise = "", autocapitalize = "sentences" }: TextFieldProps) {
  return (
    <div class="field">
      <label for={draft}>{label}</label>
      <input
        id={draft} type="text" autocomplete="off" autocapitalize={autocapitalize} data-testid={testid}
        value={typedIn(draft, otherwise)} onInput={(event) => void setDraft(draft, event.currentTarget.value)}
      />
    </div>
  );
}
