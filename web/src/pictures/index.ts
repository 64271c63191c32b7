export { NoPictureError, preparePhoto } from "./prepare";
