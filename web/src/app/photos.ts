/** Photos put together: made ready here, kept, sent in a loop of their own, and fetched for the screen. */
import { NoPictureError, preparePhoto } from "../pictures";
import type { PhotosPort } from "../state/ports";
import { showUnsentPhotos } from "../state/photos";
import type { Storage } from "../storage";
import { browserSurroundings, PhotoSender, PhotoService, PhotoShelf, type Office } from "../sync";
import type { OwnPhoto } from "../wire";

const LOCK = "evenbed-photos";

export function startPhotos(storage: Storage, office: Office): PhotosPort {
  const { photos } = storage;
  const service = new PhotoService(browserSurroundings.http);
  const sender = new PhotoSender(photos, service, { isOnline: () => navigator.onLine, alone });
  const shelf = new PhotoShelf(photos, service);
  const look = () => void photos.unsent().then(showUnsentPhotos);
  photos.onChange(() => {
    look();
    sender.nudge();
  });
  office.onPhase((phase) => sender.follow(phase));
  storage.onNews(({ gone }) => {
    if (gone.some(([kind]) => kind === "photo")) void photos.tidy();
  });
  addEventListener("offline", () => sender.stop());
  look();
  return {
    prepare,
    thumbnail: (hash) => shelf.thumbnail(hash),
    picture: (hash) => shelf.picture(hash),
    sendAgain: (hash) => photos.sendAgain(hash),
  };
}

async function prepare(file: Blob): Promise<OwnPhoto | null> {
  try {
    return await preparePhoto(file);
  } catch (error) {
    if (error instanceof NoPictureError) return null;
    throw error;
  }
}

/** One tab sends. A browser without Web Locks sends in every tab: slower, and as safe. */
function alone<T>(work: () => Promise<T>): Promise<T> {
  return ("locks" in navigator ? navigator.locks.request(LOCK, work) : work()) as Promise<T>;
}
