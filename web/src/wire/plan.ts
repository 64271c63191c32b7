/**
 * The plan as the engine gives it, by the service's own description: lengths mm, areas m², volumes m³, masses kg,
 * loads kg/m², ages h, angles degrees.
 */
import type { components } from "./generated/service";

type Schemas = components["schemas"];

export type Plan = Schemas["Plan"];
export type Bed = Schemas["BedAnswer"];
export type BedDesign = Schemas["BedDesignAnswer"];
export type Caution = Schemas["Caution"];
export type Contour = Schemas["Contour"];
export type Doorway = Schemas["Doorway"];
export type Explanation = Schemas["Explanation"];
export type Extreme = Schemas["Extreme"];
export type Flatness = Schemas["FlatnessAnswer"];
export type FlatnessWork = Schemas["Work"];
export type Lying = Schemas["Lying"];
export type StraightedgeCheck = Schemas["StraightedgeCheck"];
export type StraightedgeAnswer = Schemas["StraightedgeAnswer"];
export type Facet = Schemas["Facet"];
export type Height = Schemas["ReadHeight"];
export type Levels = Schemas["LevelsAnswer"];
export type Material = Schemas["Material"];
export type MixPlan = Schemas["MixAnswer"];
export type NextReading = Schemas["NextReading"];
export type PlanOutline = Schemas["OutlineAnswer"];
export type Rail = Schemas["Rail"];
export type Quote = Schemas["Quote"];
export type QuoteLine = Schemas["QuoteLine"];
export type Readiness = Schemas["ReadinessRow"];
export type Section = Schemas["Section"];
export type Station = Schemas["Station"];
export type Statistics = Schemas["Statistics"];
export type Surface = Schemas["SurfaceAnswer"];
export type Violation = Schemas["Violation"];

/** One thing wrong with a document: say it from `code` and `values` in the person's language; `message` is English. */
export type Problem = Schemas["Problem"];

/** What the engine can be asked, by the engine's own names. */
export type QuestionName = "plan" | "quick_plan" | "bed_design" | "fill_clock" | "order" | "levels" | "walk" | "taped_place" | "profile" | "straightedge" | "table_in" | "table_out" | "waiting" | "log_in" | "calendar";

export type Alarm = Schemas["Alarm"];
export type BatchClock = Schemas["BatchClock"];
export type SectionClock = Schemas["SectionClock"];
export type Channel = Schemas["Channel"];
export type Correction = Schemas["Correction"];
export type FillClock = Schemas["FillClockAnswer"];
export type HandArea = Schemas["HandArea"];
export type LieOfStrip = Schemas["Setting"];
export type OpenEdge = Schemas["OpenEdge"];
export type Truing = Schemas["TruingAnswer"];
export type OrderQuestion = Schemas["OrderQuestion"];
export type OrderAnswer = Schemas["OrderAnswer"];
export type OrderRow = Schemas["OrderRow"];
export type WalkAnswer = Schemas["WalkAnswer"];
export type WalkPlace = Schemas["WalkPlace"];
export type TapedPlaceAnswer = Schemas["TapedPlaceAnswer"];
export type ProfileAnswer = Schemas["ProfileAnswer"];
export type ProfilePoint = Schemas["ProfilePoint"];
export type TableInQuestion = Schemas["TableInQuestion"];
export type TableInAnswer = Schemas["TableInAnswer"];
export type TableOutQuestion = Schemas["TableOutQuestion"];
export type TableOutAnswer = Schemas["TableOutAnswer"];
export type WaitingAnswer = Schemas["WaitingAnswer"];
export type LogInQuestion = Schemas["LogInQuestion"];
export type LogInAnswer = Schemas["LogInAnswer"];
export type Countdown = Schemas["Countdown"];
export type CalendarDate = Schemas["CalendarDate"];
export type CalendarQuestion = Schemas["CalendarQuestion"];
export type CalendarAnswer = Schemas["CalendarAnswer"];
