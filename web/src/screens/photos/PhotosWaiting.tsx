/** How many photos of this phone the office has not got yet. */
import { photosWaiting } from "../../state";
import { t } from "../../words";

export function PhotosWaiting() {
  const count = photosWaiting.value;
  return count === 0 ? null : <p class="photos-waiting" data-testid="photos-waiting">{t("photos.saved_waiting", { count })}</p>;
}
