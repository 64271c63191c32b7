/** What somebody may do: one of three, with what it means. */
import type { Role } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";

const ROLES: readonly Role[] = ["setter", "foreman", "viewer"];

export function RoleChoice({ value, onChoose }: { value: Role; onChoose: (role: Role) => void }) {
  return (
    <div class="stack tight">
      <Choice label={t("role.label")} name="role" value={value} onChoose={onChoose} options={ROLES.map((role) => ({ value: role, label: t(`role.${role}`) }))} />
      <p class="quiet small">{t(`role.${value}_more`)}</p>
    </div>
  );
}
