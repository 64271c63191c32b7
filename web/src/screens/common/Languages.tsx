/** The language, each named in itself so that whoever needs it can find it. */
import { preferences, setPreference } from "../../state";
import { t } from "../../words";
import { Choice } from "./Choice";

export function Languages() {
  return (
    <Choice
      label={t("language.label")} name="language" value={preferences.value.language} onChoose={(value) => setPreference("language", value)}
      options={[{ value: "en", label: "English" }, { value: "es", label: "Español" }]}
    />
  );
}
