export { browserSurroundings, watchOccasions } from "./occasions";
export type { JoinOutcome } from "./answers";
export { Office, type Phase, type Surroundings, type Told } from "./office";
export { NoReply, ProblemReply, type Http } from "./service";
export { PhotoSender } from "./photo_sender";
export { PhotoService } from "./photo_service";
export { PhotoShelf } from "./photo_shelf";
export { ScanReader } from "./scan_reader";
