export { browserSurroundings, watchOccasions } from "./occasions";
export { Office, type JoinOutcome, type Phase, type Surroundings } from "./office";
export { NoReply, ProblemReply, type Http } from "./service";
