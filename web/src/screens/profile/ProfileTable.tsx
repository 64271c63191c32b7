/** The profile in figures, place by place: for screen readers, and for whoever wants to write it on the wall. */
import { depthText, heightText, lengthText } from "../../units";
import type { ProfileAnswer } from "../../wire";
import { reader, t } from "../../words";

export function ProfileTable({ answer }: { answer: ProfileAnswer }) {
  return (
    <table class="shims profile-table" data-testid="profile-figures">
      <thead>
        <tr><th scope="col">{t("profile.along")}</th><th scope="col">{t("profile.subfloor")}</th><th scope="col">{t("profile.top")}</th><th scope="col">{t("profile.thickness")}</th></tr>
      </thead>
      <tbody>
        {answer.runs.flat().map(({ along, subfloor, top, thickness, estimated }, index) => (
          <tr key={index}>
            <th scope="row">{lengthText(along, reader.value)}</th>
            <td>{heightText(subfloor, reader.value)}{estimated && <span class="small"> {t("profile.estimated")}</span>}</td>
            <td>{heightText(top, reader.value)}</td>
            <td>{depthText(thickness, reader.value)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
