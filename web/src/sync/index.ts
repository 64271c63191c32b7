export { browserSurroundings, watchOccasions } from "./occasions";
export type { JoinOutcome } from "./answers";
export { Office, type Phase, type Surroundings, type Told } from "./office";
export { NoReply, ProblemReply, type Http } from "./service";
