/** The foreman's code from its picture: taken with the camera from inside the app, where a link would open elsewhere. */
import { useRef, useState } from "preact/hooks";
import { t } from "../../words";
import { codeFromText } from "./joinCode";
import { textFromPicture } from "./readPicture";

export function ReadCode({ onCode }: { onCode: (code: string) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [isLost, setLost] = useState(false);
  const read = async (file: File | undefined) => {
    if (!file) return;
    const code = codeFromText((await textFromPicture(file)) ?? "");
    setLost(code === null);
    if (code !== null) onCode(code);
  };
  return (
    <>
      <input
        ref={input} type="file" accept="image/*" capture="environment" hidden data-testid="code-picture"
        onChange={(event) => { void read(event.currentTarget.files?.[0]); event.currentTarget.value = ""; }}
      />
      <button type="button" class="button wide" data-testid="read-code" onClick={() => input.current?.click()}>{t("join.by_picture")}</button>
      {isLost && <p class="caution" role="alert" data-testid="code-lost">{t("join.no_code_in_picture")}</p>}
    </>
  );
}
