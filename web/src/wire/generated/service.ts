/** Made by `npm run wire` from the service's description. Not edited by hand. */

export interface paths {
    readonly "/api/calendar": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * State
         * @description Whether this person has an address, and since when. The address itself nobody can tell again.
         */
        readonly get: operations["calendarState"];
        readonly put?: never;
        /**
         * Make
         * @description A fresh secret address of the dates that this person sees, told this once. One made before dies.
         */
        readonly post: operations["makeCalendar"];
        /**
         * Revoke
         * @description From now on this person's address opens nothing. Without one nothing changes.
         */
        readonly delete: operations["revokeCalendar"];
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/devices/{device_id}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        readonly post?: never;
        /**
         * Remove
         * @description From its next request on the device neither reads nor writes. What it sent stays. For foremen.
         */
        readonly delete: operations["removeDevice"];
        readonly options?: never;
        readonly head?: never;
        /**
         * Rename
         * @description Give a device another name. For foremen; any device may do it for itself.
         */
        readonly patch: operations["renameDevice"];
        readonly trace?: never;
    };
    readonly "/api/events": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Events
         * @description Says `{"latest": N, "view": V}` at once and whenever one has grown. It ends when the device may not read.
         */
        readonly get: operations["events"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/health": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Health
         * @description The service is up and its database answers.
         */
        readonly get: operations["health"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/invites": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Invite
         * @description A code for one device of a new person, or of a known one. It holds for half an hour. For foremen.
         */
        readonly post: operations["invite"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs/{job_id}/file": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Job File
         * @description Everything that is known of a job, deleted records, history and photos too, as one file.
         */
        readonly get: operations["job_file"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs/{job_id}/forecast": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Forecast
         * @description The days foretold for the job's place. The phone that asked keeps them as records of its own.
         */
        readonly post: operations["forecast"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs/{job_id}/history": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Job History
         * @description The changes of all records of a job after a number, oldest first, each as it was sent.
         */
        readonly get: operations["job_history"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs/file": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Take Job File
         * @description Take a job file in, made here or on a phone: all of it or nothing. What is known already stays as it is.
         */
        readonly post: operations["take_job_file"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/join": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Join Device
         * @description Join with the code from the office. The token is in the reply and in a cookie.
         */
        readonly post: operations["join"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/levels": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Levels
         * @description The adjusted levels of the document in the body: heights, standard errors, misfits. No outline is needed.
         */
        readonly post: operations["levels"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/people": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * People
         * @description Everybody who was let in or is expected, with their devices, removed ones too. For foremen.
         */
        readonly get: operations["people"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/people/{person_id}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        /**
         * Edit
         * @description Give somebody another name or role; it holds from their next request on. For foremen.
         */
        readonly patch: operations["editPerson"];
        readonly trace?: never;
    };
    readonly "/api/photos/{hash}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Photo
         * @description How much of a photo is here. The next part goes on from there, whichever device sends it.
         */
        readonly get: operations["photo"];
        /**
         * Send Photo Part
         * @description Send the next bytes of a photo that a record names. What is here already is not taken twice.
         *
         *     With the last part the whole is looked into: one that is not taken is let go of, and may be sent anew.
         */
        readonly put: operations["sendPhotoPart"];
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{hash}/file": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Photo File
         * @description The picture.
         */
        readonly get: operations["photoFile"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{hash}/thumbnail": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Photo Thumbnail
         * @description The picture made small: at most 320 pixels, with nothing beside them.
         */
        readonly get: operations["photoThumbnail"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/plan": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Plan
         * @description The plan of the room document in the body, or every problem that keeps it from having one.
         */
        readonly post: operations["plan"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/pull": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Pull
         * @description Records changed after a number, oldest change first. After 0, or from another view, it is all of them.
         */
        readonly get: operations["pull"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/push": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Push
         * @description Hand over changes, in the order of their numbers. When the reply comes, they are on the service's disk.
         */
        readonly post: operations["push"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/records/{kind}/{record_id}/history": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * History
         * @description Every change of a record, oldest first: nothing that was ever said is missing.
         */
        readonly get: operations["history"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/rooms/{room_id}/scan": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Scan
         * @description The readings of a PLY, XYZ or CSV file for a room whose outline is here.
         */
        readonly post: operations["scan"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/session": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Session
         * @description Who this device is to the service.
         */
        readonly get: operations["session"];
        readonly put?: never;
        readonly post?: never;
        /**
         * Leave
         * @description This device leaves: its token opens nothing from now on, and the cookie goes. What it sent stays.
         */
        readonly delete: operations["leave"];
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/calendar/{secret}.ics": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * Calendar
         * @description Every milestone window of every room that is placed, of the jobs that the person sees now.
         */
        readonly get: operations["calendar"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        /** @description How the network of levels is adjusted. */
        readonly Adjustment: {
            readonly datum?: ("fixed" | "free") | null;
            readonly sigma_km?: number | null;
        };
        /** @description A moment at which somebody wants to be told. */
        readonly Alarm: {
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            /** @description The batch it is about */
            readonly batch: string | null;
            /**
             * @description What for
             * @enum {unknown}
             */
            readonly code: "use_soon" | "use_by" | "channels" | "last_batch" | "day_ends";
            /** @description The section it is about */
            readonly section: string | null;
        };
        /** @description One published allowance. That it is not exceeded says nothing: the floor's own weight is part of it too. */
        readonly Allowance: {
            /** @description Which allowance, from a closed set */
            readonly code: string;
            /** @description By how much they pass it at the thickest spot (kg/m2) */
            readonly exceeded_by_max: number | null;
            /** @description By how much bed and covering pass it on average (kg/m2) */
            readonly exceeded_by_mean: number | null;
            /** @description Dead load it allows (kg/m2) */
            readonly limit_kg_m2: number;
            /** @description Dead load it allows (lb/ft2) */
            readonly limit_lb_ft2: number;
            /** @description Which source, from a closed set */
            readonly source_code: string;
            /** @description Whom to turn to: `engineer_and_building_office` */
            readonly turn_to: string;
        };
        /**
         * AlternativeFields
         * @description A top of bed that was thought of for a room. Chosen ones say when and by whom: a decision.
         */
        readonly AlternativeFields: {
            /**
             * Chosen At
             * @default null
             */
            readonly chosen_at?: string | null;
            /**
             * Chosen By
             * @description The name of whoever chose it
             * @default null
             */
            readonly chosen_by?: string | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /** Room Id */
            readonly room_id: string;
            /** @default null */
            readonly top?: components["schemas"]["TopPart"] | null;
        };
        /** @description What goes into the mixer each time. */
        readonly Batch: {
            /** @description Bags of cement, not always whole */
            readonly bags: number;
            /** @description Cement (kg) */
            readonly cement: number;
            /** @description Lime (kg) */
            readonly lime: number;
            /** @description Sand, weighed dry (kg) */
            readonly sand: number;
            /** @description Sand with its own water, as it is weighed on site (kg) */
            readonly sand_damp: number;
            /** @description Sand, damp and loose (m3) */
            readonly sand_loose: number;
            /** @description Compacted mortar (m3) */
            readonly volume: number;
            /** @description Water, the sand's own included (kg) */
            readonly water: number;
            /** @description Water less the sand's own, never below 0 (kg) */
            readonly water_to_add: number;
        };
        /** @description One batch and how long it may still be worked. A section's own mixing is none: batches are entered. */
        readonly BatchClock: {
            /** @description The batch's id */
            readonly id: string;
            /** @description False where at the pace so far it will not be used in time, or was not; false for one thrown away */
            readonly is_in_time: boolean;
            /** @description The section it is for, or was the one being filled when it was mixed */
            readonly section: string | null;
            /**
             * @description soon: to be used within a quarter of its working time; late: past it
             * @enum {unknown}
             */
            readonly state: "fresh" | "soon" | "late" | "placed" | "thrown";
            /**
             * Format: date-time
             * @description When it must be in place
             */
            readonly use_by: string;
        };
        /**
         * BatchFields
         * @description One batch from the mixer. `size` is 1 for a full one.
         */
        readonly BatchFields: {
            /**
             * At
             * @description A place in the section: ids change with the rails, places do not
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Mixed At
             * Format: date-time
             */
            readonly mixed_at: string;
            /**
             * Placed At
             * @default null
             */
            readonly placed_at?: string | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Section
             * @default null
             */
            readonly section?: string | null;
            /**
             * Size
             * @default null
             */
            readonly size?: number | null;
            /**
             * Thrown At
             * @default null
             */
            readonly thrown_at?: string | null;
        };
        /** @description The bed under the chosen top. */
        readonly BedAnswer: {
            /** @description Published allowances of dead load, never a verdict */
            readonly allowances: readonly components["schemas"]["Allowance"][];
            /** @description `unbonded` or `bonded` */
            readonly build: string;
            /** @description From the subfloor up; the thickness of the bed elsewhere counts the membrane under it */
            readonly build_up: readonly components["schemas"]["Layer"][];
            /** @description The best of it, null where nothing is worth chipping */
            readonly chip_plan: components["schemas"]["ChipPlan"] | null;
            /** @description What chipping each high spot would save, the highest first */
            readonly chipping: readonly components["schemas"]["Chip"][];
            /** @description What the top makes of each doorway */
            readonly doorways: readonly components["schemas"]["Doorway"][];
            /** @description What the finished floor makes of each fixture */
            readonly fixtures: readonly components["schemas"]["FixtureHeight"][];
            /** @description Dead load of the bed alone, of its covering, and of both */
            readonly load: components["schemas"]["Load"];
            /** @description Fresh mass of the bed (kg) */
            readonly mass: number;
            /** @description Thickness beyond which the bed must be designed (mm) */
            readonly maximum_thickness: number;
            /** @description Least thickness in force (mm) */
            readonly minimum_thickness: number;
            /** @description What governs the top, the dearest first */
            readonly requirements: readonly components["schemas"]["Requirement"][];
            /** @description The material stacked on the floor before it is mixed */
            readonly stacked: components["schemas"]["Stacked"];
            /** @description How thick, and where */
            readonly thickness: components["schemas"]["Thickness"];
            /** @description Area above the maximum (m2) */
            readonly too_thick_area: number;
            /** @description Area below the minimum (m2) */
            readonly too_thin_area: number;
            /** @description Planes of the top */
            readonly top: readonly components["schemas"]["Facet"][];
            /** @description Places beyond a limit, the worst first */
            readonly violations: readonly components["schemas"]["Violation"][];
            /** @description Mortar in place (m3) */
            readonly volume: number;
            /** @description 90 % range of the volume under this top, null where it was not asked for (m3) */
            readonly volume_range: readonly [
                number,
                number
            ] | null;
        };
        /** @description How the bed is to be: its build, its limits and its top. */
        readonly BedDesign: {
            readonly build?: ("unbonded" | "bonded") | null;
            readonly chip_depth?: number | null;
            readonly covering?: components["schemas"]["Covering"] | null;
            readonly maximum_thickness?: number | null;
            /**
             * @description Least thickness; null for the build's default (mm)
             * @default null
             */
            readonly minimum_thickness?: number | null;
            readonly top?: (components["schemas"]["LevelTop"] | components["schemas"]["PlaneTop"] | components["schemas"]["LeastTop"] | components["schemas"]["DrainTop"] | components["schemas"]["TwoLevelTop"]) | null;
        };
        /** @description What a change of the top touches, and nothing else: soon enough to follow a thumb. */
        readonly BedDesignAnswer: {
            /** @description The bed */
            readonly bed: components["schemas"]["BedAnswer"];
            /** @description What can hurt a person or spoil the bed, as far as it goes */
            readonly cautions: readonly components["schemas"]["Caution"][];
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description What stands behind a figure, by its path in the plan */
            readonly explanations: {
                readonly [key: string]: components["schemas"]["Explanation"];
            };
            /** @description What to buy or carry in */
            readonly materials: readonly components["schemas"]["Material"][];
            /** @description Batches and what the mix makes */
            readonly mix: components["schemas"]["MixAnswer"];
            /** @description What it costs */
            readonly quote: components["schemas"]["Quote"];
        };
        /** @description Where work is best stopped, if it must be: at joints before along rails, along rails before anywhere else. */
        readonly BestStop: {
            /** @description The section to finish first; null where it is best to stop at once */
            readonly after: string | null;
            /** @description When that will be at the pace so far; null without a pace */
            readonly at: string | null;
            /** @description Edge left anywhere else, to cut back square and key (mm) */
            readonly cut: number;
            /** @description Edge left at movement joints (mm) */
            readonly joint: number;
            /** @description Edge left along rails (mm) */
            readonly rail: number;
        };
        /** @description Bond coat under the tile. */
        readonly BondCoat: {
            readonly bag_mass?: number | null;
            readonly density?: number | null;
            readonly waste?: number | null;
        };
        /**
         * Bringer
         * @description Who brought a change in a file, and on which device.
         */
        readonly Bringer: {
            /** Device Id */
            readonly device_id: string;
            /** Device Name */
            readonly device_name: string;
            /** Person */
            readonly person: string;
        };
        /** @description The calendar as a file. */
        readonly CalendarAnswer: {
            /** @description iCalendar (RFC 5545), lines ended by CR LF */
            readonly text: string;
        };
        /** @description One date: a milestone of a room. */
        readonly CalendarDate: {
            /**
             * @description When what it rests on last changed
             * @default null
             */
            readonly changed_at?: string | null;
            readonly description?: string | null;
            /**
             * Format: date-time
             * @description From
             */
            readonly from: string;
            readonly location?: string | null;
            readonly sequence?: number | null;
            readonly status?: ("tentative" | "confirmed" | "cancelled") | null;
            /** @description What a calendar shows */
            readonly summary: string;
            /**
             * Format: date-time
             * @description To; the same as `from` for a moment
             */
            readonly to: string;
            /** @description The same for the same milestone, whatever its time becomes */
            readonly uid: string;
        };
        /**
         * CalendarMade
         * @description A fresh address, shown this once: whoever knows it reads the dates.
         */
        readonly CalendarMade: {
            /**
             * Made At
             * Format: date-time
             */
            readonly made_at: string;
            /**
             * Path
             * @description To be put behind the service's own address
             */
            readonly path: string;
        };
        /** @description Dates to be written as one calendar. */
        readonly CalendarQuestion: {
            /** @description Every date */
            readonly dates: readonly components["schemas"]["CalendarDate"][];
            /**
             * Format: date-time
             * @description When it is written
             */
            readonly made_at: string;
            /** @description What the calendar is called */
            readonly name: string;
        };
        /**
         * CalendarRequest
         * @description How the dates are to be told.
         */
        readonly CalendarRequest: {
            /**
             * Language
             * @default en
             * @enum {string}
             */
            readonly language?: "en" | "es";
            /**
             * Zone
             * @description Where moments inside a text are told by the clock; none: UTC
             * @default
             */
            readonly zone?: string;
        };
        /**
         * CalendarState
         * @description Whether the person has an address, and since when.
         */
        readonly CalendarState: {
            /**
             * Made At
             * @description Null where there is none
             */
            readonly made_at: string | null;
        };
        /** @description One caution: `where` names the part of the plan it stands at (`bed.load`, `readiness`). */
        readonly Caution: {
            /** @description Which caution, from a closed set */
            readonly code: string;
            /** @description The caution in English */
            readonly text: string;
            /** @description The figures in the text, by name */
            readonly values: {
                readonly [key: string]: number | string;
            };
            /** @description The part of the plan it stands at */
            readonly where: string;
        };
        /**
         * Change
         * @description One edit: small, complete in itself, never edited. It is judged alone, and refused with a reason.
         */
        readonly Change: {
            /** Change Id */
            readonly change_id: string;
            /**
             * Device Time
             * Format: date-time
             * @description The device's own clock when the edit was made
             */
            readonly device_time: string;
            /** Fields */
            readonly fields: {
                readonly [key: string]: components["schemas"]["JsonValue"];
            };
            /**
             * Kind
             * @description One of job, room, reading, placement, batch, station, rail_check, entry, climate, photo, alternative, gap, height_line, temperature_log, forecast_day, sign_off, prices, supplies
             */
            readonly kind: string;
            /**
             * Number
             * @description The device's own count: 1, 2, 3 ...
             */
            readonly number: number;
            /** @description For a change that was read out of a file */
            readonly origin?: components["schemas"]["Origin"] | null;
            /** Record Id */
            readonly record_id: string;
            /**
             * Schema
             * @description Version of what the fields mean
             */
            readonly schema: number;
            /**
             * Seen
             * @description The service's number this device had seen when the edit was made
             */
            readonly seen: number;
        };
        /** @description The groove that a strip leaves in a section once it is pulled. */
        readonly Channel: {
            /** @description Where it begins (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description How long it is (mm) */
            readonly length: number;
            /** @description The rail's id */
            readonly rail: string;
            /** @description Where it ends (mm) */
            readonly to: readonly [
                number,
                number
            ];
            /** @description Mortar that fills it, part of the section's volume (m3) */
            readonly volume: number;
        };
        /** @description What a level showed on a rail or across two of them. */
        readonly Check: {
            readonly from?: number | null;
            readonly id?: string | null;
            readonly length?: number | null;
            readonly level?: string | null;
            readonly off?: number | null;
            /**
             * @description The rail the level lay along
             * @default null
             */
            readonly rail?: string | null;
            /**
             * @description The two rails it bridged
             * @default null
             */
            readonly rails?: readonly [
                string,
                string
            ] | null;
            /**
             * @description The same with the level turned end for end (mm)
             * @default null
             */
            readonly reversed_off?: number | null;
            /**
             * @description When it was read
             * @default null
             */
            readonly taken_at?: string | null;
            readonly to?: number | null;
        };
        /** @description One reading among the others. */
        readonly CheckFit: {
            /** @description The reading's id */
            readonly check: string;
            /** @description False where its rail was bedded anew since or is not there any more, or it lay over two lies */
            readonly counts: boolean;
            /** @description What it shows without the level's own error and the fall; null where unknown (mm) */
            readonly off: number | null;
            /** @description What of it the rails, as reckoned, leave unexplained (mm) */
            readonly residual: number | null;
        };
        /**
         * @description Bringing one high spot down so far that the next one governs, and with it all that are higher.
         *
         *         Under a top that is given, each place where the bed is too thin stands for itself.
         */
        readonly Chip: {
            /** @description What is chipped in all, the higher spots included (m2) */
            readonly area: number;
            /** @description Its highest place (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description What is chipped off in all (m3) */
            readonly chipped_volume: number;
            /** @description How deep the deepest place is chipped, and how far the top comes down (mm) */
            readonly depth: number;
            /** @description Its name, the highest first */
            readonly id: string;
            /** @description What the mortar saved costs less the chipping, null where prices are missing */
            readonly saves_cost: number | null;
            /** @description Its mass, fresh (kg) */
            readonly saves_mass: number;
            /** @description Mortar saved over the whole floor; negative under a top that is given (m3) */
            readonly saves_volume: number;
        };
        /** @description The best depth for the prices given; without prices the first spot alone, weighed against nothing. */
        readonly ChipPlan: {
            /** @description What is chipped (m2) */
            readonly area: number;
            /**
             * @description Whether prices were weighed
             * @enum {unknown}
             */
            readonly basis: "prices" | "none";
            /** @description What is chipped off (m3) */
            readonly chipped_volume: number;
            /** @description How deep the deepest place is chipped; 0 where raising the top is cheaper (mm) */
            readonly depth: number;
            /** @description Hours of one person that chip (h) */
            readonly labour_hours: number;
            /** @description What the mortar saved costs less the chipping, null where prices are missing */
            readonly saves_cost: number | null;
            /** @description Its mass, fresh (kg) */
            readonly saves_mass: number;
            /** @description Mortar saved over the whole floor; negative under a top that is given (m3) */
            readonly saves_volume: number;
            /** @description Ids of the high spots that are chipped */
            readonly spots: readonly string[];
            /** @description How far the top comes down (mm) */
            readonly top_lower_by: number;
        };
        /**
         * ClimateFields
         * @description One measured or forecast moment: °C, %, km/h.
         */
        readonly ClimateFields: {
            /**
             * Air
             * @default null
             */
            readonly air?: number | null;
            /**
             * At
             * Format: date-time
             */
            readonly at: string;
            /**
             * Bed
             * @default null
             */
            readonly bed?: number | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Forecast
             * @default null
             */
            readonly forecast?: boolean | null;
            /**
             * Humidity
             * @default null
             */
            readonly humidity?: number | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Wind
             * @default null
             */
            readonly wind?: number | null;
        };
        /** @description One measured or forecast moment. */
        readonly ClimateRow: {
            /**
             * @description Temperature of the air (Cel)
             * @default null
             */
            readonly air?: number | null;
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            /**
             * @description Temperature in the bed (Cel)
             * @default null
             */
            readonly bed?: number | null;
            readonly forecast?: boolean | null;
            /**
             * @description Relative humidity (%)
             * @default null
             */
            readonly humidity?: number | null;
            /**
             * @description Wind speed (km/h)
             * @default null
             */
            readonly wind?: number | null;
        };
        /**
         * Code
         * @description Stable codes; a screen in another language makes its own sentence from them.
         * @enum {string}
         */
        readonly Code: "bad_document" | "malformed" | "not_json" | "not_joined" | "device_removed" | "wrong_code" | "name_needed" | "device_taken" | "foreman_only" | "last_foreman" | "viewer_only_looks" | "too_many_tries" | "device_forked" | "gap" | "update_needed" | "not_found" | "method_not_allowed" | "too_large" | "json_required" | "octets_required" | "photo_gap" | "photo_differs" | "photo_damaged" | "photo_unknown_type" | "photo_too_large" | "photo_has_position" | "scan_unreadable" | "scan_misses_floor" | "job_file_not_taken" | "forecast_off" | "forecast_without_place" | "forecast_unreachable" | "forecast_unreadable" | "busy" | "storage_full" | "storage_failed" | "internal";
        /**
         * Conflict
         * @description A value that lost against another made without knowing of it. An edit that has seen `sequence` closes it.
         */
        readonly Conflict: {
            /**
             * At
             * Format: date-time
             * @description When that edit was made, the device's clock corrected
             */
            readonly at: string;
            /** Device Id */
            readonly device_id: string;
            /** Person */
            readonly person: string;
            /**
             * Sequence
             * @description The service's number of the change that brought the two together
             */
            readonly sequence: number;
            readonly value: components["schemas"]["JsonValue"];
        };
        /** @description All lines at one height, over the readings' hull: a drawing cuts them at the room's walls. */
        readonly Contour: {
            /** @description Each an open line, or closed where the ends are one point */
            readonly lines: readonly (readonly (readonly [
                number,
                number
            ])[])[];
            /** @description Height of these lines (mm) */
            readonly z: number;
        };
        /** @description One thing to do: raise or let down one end of a rail, where its strip lies now. */
        readonly Correction: {
            /** @description The reading that asks for it most */
            readonly check: string;
            /**
             * @description Which end of the lie: nearer to the rail's beginning, or to its end
             * @enum {unknown}
             */
            readonly end: "from" | "to";
            /** @description Which lie of its strip, by its order; 1 for a rail of one */
            readonly lie: number;
            /** @description The same in whole millimetres */
            readonly millimetres: number;
            /** @description About how much mortar to add to the ramp; negative to shave off (m3) */
            readonly mortar: number;
            /** @description The rail's id */
            readonly rail: string;
            /** @description How much to raise it; negative lets it down (mm) */
            readonly raise: number;
            /** @description The same in whole sixteenths of an inch */
            readonly sixteenths: number;
            /** @description The station at that end of the lie, counted from 0 along the rail */
            readonly station: number;
            /** @description The same in whole thirty-seconds of an inch, which one round is worth */
            readonly thirty_seconds: number;
        };
        /** @description One milestone at a moment. */
        readonly Countdown: {
            /** @description Early */
            readonly early: string | null;
            /** @description Until likely, negative once past; null without a time (h) */
            readonly hours_left: number | null;
            /** @description Late */
            readonly late: string | null;
            /** @description Likely */
            readonly likely: string | null;
            /**
             * @description What waits
             * @enum {unknown}
             */
            readonly milestone: "walk" | "tile" | "grout" | "light_traffic" | "heavy_traffic";
            /** @description Of what is needed, gathered so far, at most 1; null where nothing is placed */
            readonly share: number | null;
            /**
             * @description `may_be_ready` from early on, `should_be_ready` after late: somebody must look; `ticked` once they did
             * @enum {unknown}
             */
            readonly state: "not_placed" | "waiting" | "may_be_ready" | "should_be_ready" | "ticked" | "never";
            /** @description Who let it pass, null where nobody did */
            readonly ticked: components["schemas"]["Ticked"] | null;
        };
        /** @description What will lie on the bed. */
        readonly Covering: {
            readonly bond_thickness?: number | null;
            readonly longest_edge?: number | null;
            readonly tile_thickness?: number | null;
        };
        /** @description The constants of the waiting, all changeable. */
        readonly Curing: {
            readonly activation?: number | null;
            readonly assumed?: number | null;
            readonly datum?: number | null;
            readonly early?: number | null;
            readonly follows?: number | null;
            readonly forecast_doubt?: number | null;
            readonly fresh_window?: number | null;
            readonly late?: number | null;
            readonly method?: ("equivalent_age" | "temperature_time") | null;
            readonly milestones?: readonly components["schemas"]["MilestoneNeed"][] | null;
            readonly moisture_sensitive?: boolean | null;
            readonly reference?: number | null;
            /**
             * @description What somebody chose: same day or overnight; null: nobody did
             * @default null
             */
            readonly tile_when?: ("same_day" | "overnight") | null;
            readonly working_time?: number | null;
        };
        /** @description One moment of the waiting, to be drawn. */
        readonly CurvePoint: {
            /** @description Equivalent age gathered (h) */
            readonly age: number;
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            /** @description Temperature (Cel) */
            readonly celsius: number;
            /** @description Temperature-time factor gathered (Cel.h) */
            readonly factor: number;
            /** @description After placing; after the first temperature where nothing is placed (h) */
            readonly hours: number;
            /** @description False where it is foretold or assumed */
            readonly measured: boolean;
        };
        /**
         * DeviceEdit
         * @description A new name for a device.
         */
        readonly DeviceEdit: {
            /**
             * Name
             * @description As the foreman or its owner calls it
             */
            readonly name: string;
        };
        /** @description A levelled difference of height between two marks, with its standard error or the length of its line. */
        readonly Difference: {
            /**
             * @description Length of the levelled line, where no standard error is known (mm)
             * @default null
             */
            readonly distance?: number | null;
            /** @description The mark it runs from */
            readonly from: string;
            readonly id?: string | null;
            /** @description How much higher the end lies (mm) */
            readonly rise: number;
            /**
             * @description Standard error (mm)
             * @default null
             */
            readonly sigma?: number | null;
            /** @description The mark it runs to */
            readonly to: string;
        };
        /** @description How a levelled difference fits the adjusted heights. */
        readonly DifferenceFit: {
            /** @description The difference's id */
            readonly id: string;
            /** @description Measured less adjusted, null where nothing checks it (mm) */
            readonly residual: number | null;
            /** @description Residual over its own standard error as the measurements' foretell it, null where nothing checks it */
            readonly standardised: number | null;
        };
        /** @description Everything known of one room. Only the outline and the readings are required. */
        readonly Document: {
            readonly adjustment?: components["schemas"]["Adjustment"] | null;
            readonly batches?: readonly components["schemas"]["MixedBatch"][] | null;
            readonly bed?: components["schemas"]["BedDesign"] | null;
            readonly checks?: readonly components["schemas"]["Check"][] | null;
            readonly climate?: readonly components["schemas"]["ClimateRow"][] | null;
            readonly curing?: components["schemas"]["Curing"] | null;
            readonly differences?: readonly components["schemas"]["Difference"][] | null;
            /**
             * @description The version of this format
             * @enum {unknown}
             */
            readonly document: 1;
            readonly filling?: components["schemas"]["FillDesign"] | null;
            readonly fixtures?: readonly components["schemas"]["Fixture"][] | null;
            readonly flatness?: components["schemas"]["FlatnessDesign"] | null;
            readonly forecast?: readonly components["schemas"]["ForecastDay"][] | null;
            readonly gaps?: readonly components["schemas"]["MeasuredGap"][] | null;
            readonly height_lines?: readonly components["schemas"]["HeightLine"][] | null;
            readonly instrument_checks?: readonly components["schemas"]["InstrumentCheck"][] | null;
            readonly joints?: components["schemas"]["JointDesign"] | null;
            readonly logs?: readonly components["schemas"]["TemperatureLog"][] | null;
            readonly marks?: readonly components["schemas"]["Mark"][] | null;
            readonly mix?: components["schemas"]["Mix"] | null;
            readonly openings?: readonly components["schemas"]["Opening"][] | null;
            /** @description The room's figure */
            readonly outline: components["schemas"]["Outline"];
            readonly placements?: readonly components["schemas"]["Placement"][] | null;
            readonly prices?: components["schemas"]["Prices"] | null;
            readonly rails?: components["schemas"]["RailDesign"] | null;
            /** @description Levels read in the room */
            readonly readings: readonly components["schemas"]["Reading"][];
            readonly setups?: readonly components["schemas"]["Setup"][] | null;
            readonly stoppages?: readonly components["schemas"]["Stoppage"][] | null;
            readonly supplies?: components["schemas"]["Supplies"] | null;
            readonly ticks?: readonly components["schemas"]["Tick"][] | null;
            readonly touches?: readonly components["schemas"]["Touch"][] | null;
            readonly truings?: readonly components["schemas"]["Truing"][] | null;
        };
        /** @description When the whole room will be filled, nothing stopping the work from now on. */
        readonly DoneTimes: {
            /**
             * Format: date-time
             * @description Early: one time in twenty it is done before
             */
            readonly early: string;
            /**
             * Format: date-time
             * @description Late: one time in twenty it takes longer
             */
            readonly late: string;
            /**
             * Format: date-time
             * @description Likely
             */
            readonly likely: string;
        };
        /** @description What the top makes of one doorway along its opening. */
        readonly Doorway: {
            /** @description Middle of the opening (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Least thickness of the bed along the opening (mm) */
            readonly bed_thickness: number;
            /** @description Underside of the door less the highest top of tile along the opening; null where it is unknown (mm) */
            readonly clearance: number | null;
            /** @description Top of tile in the middle, z (mm) */
            readonly finished_height: number;
            /** @description Highest top of tile along the opening, z (mm) */
            readonly high: number;
            /** @description The opening's id */
            readonly id: string;
            /** @description Class of the worst step; null where the step is unknown */
            readonly kind: ("flush" | "upright" | "bevelled" | "ramp") | null;
            /** @description Lowest top of tile along the opening, z (mm) */
            readonly low: number;
            /** @description Finished floor less the floor beyond, in the middle; null where that is unknown (mm) */
            readonly step: number | null;
            /** @description What the worst step needs; null where the step is unknown */
            readonly transition: ("none" | "edge_strip" | "bevelled_strip" | "ramp") | null;
            /** @description How long a bevel or ramp must be, 0 for none (mm) */
            readonly transition_length: number | null;
            /** @description The same where it is greatest, up or down (mm) */
            readonly worst_step: number | null;
        };
        /** @description How well the floor is known at one place. */
        readonly Doubt: {
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Standard error of the subfloor there (mm) */
            readonly sigma: number;
        };
        /** @description A top that falls to a drain: round (level along the walls) or linear (level along the drain). */
        readonly DrainTop: {
            /** @description Id of the drain */
            readonly drain: string;
            /** @description Least fall towards it */
            readonly fall: number;
            readonly kind?: "to_drain" | null;
            /**
             * @description z of the top of bed along the walls, null for the lowest that keeps the fall everywhere (mm)
             * @default null
             */
            readonly perimeter?: number | null;
        };
        /** @description How long the bed takes to dry for a covering that minds moisture: a band, never a date; a test decides. */
        readonly Drying: {
            /** @description The short end, counted from placing; null where nothing is placed */
            readonly early: string | null;
            /** @description The short end of the band (d) */
            readonly early_days: number;
            /** @description Thicknesses beyond which drying slows down: sources differ (mm) */
            readonly knees: readonly number[];
            /** @description The long end, counted from placing; null where nothing is placed */
            readonly late: string | null;
            /** @description The long end of the band (d) */
            readonly late_days: number;
            /** @description Thickest bed (mm) */
            readonly thickness: number;
        };
        /**
         * EntryFields
         * @description A line of the room's day book.
         *
         *     `trued`: a rail bedded anew, the ends of the `lie`-th lie of its strip moved by `from_raise` and `to_raise` mm, of
         *     the whole rail where there is no `lie`. `stopped` and `helper`: from `at` until `until`. `note`: a text. `habit`
         *     and `habit_off`: a habit of the trade, by `code`, done or silenced. `form`: a form set at the edge `code`.
         *     `milestone`: the bed was looked at (`how`) by somebody (`by`) and let pass the milestone `code`. `rubbed` and
         *     `filled_up`: the bed was worked over at `place`.
         */
        readonly EntryFields: {
            /**
             * At
             * Format: date-time
             */
            readonly at: string;
            /**
             * By
             * @default null
             */
            readonly by?: string | null;
            /**
             * Code
             * @default null
             */
            readonly code?: string | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * From Raise
             * @default null
             */
            readonly from_raise?: number | null;
            /**
             * How
             * @default null
             */
            readonly how?: string | null;
            /**
             * Lie
             * @default null
             */
            readonly lie?: number | null;
            /**
             * Place
             * @default null
             */
            readonly place?: readonly number[] | null;
            /**
             * Rail
             * @default null
             */
            readonly rail?: string | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Section
             * @default null
             */
            readonly section?: string | null;
            /**
             * Text
             * @default null
             */
            readonly text?: string | null;
            /**
             * To Raise
             * @default null
             */
            readonly to_raise?: number | null;
            /**
             * Until
             * @default null
             */
            readonly until?: string | null;
            /**
             * What
             * @enum {string}
             */
            readonly what: "trued" | "stopped" | "helper" | "note" | "habit" | "habit_off" | "form" | "milestone" | "rubbed" | "filled_up";
        };
        /** @description How fast a wet surface dries at one moment (Uno 1998); real rates differ by 40 % either way (Hover 2020). */
        readonly EvaporationRow: {
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            /** @description True where it is foretold */
            readonly forecast: boolean;
            /** @description 40 % more (kg/(m2.h)) */
            readonly high: number;
            /**
             * @description Against the threshold of 1 kg/(m²·h)
             * @enum {unknown}
             */
            readonly level: "low" | "watch" | "act";
            /** @description 40 % less (kg/(m2.h)) */
            readonly low: number;
            /** @description Evaporation (kg/(m2.h)) */
            readonly rate: number;
        };
        /** @description What stands behind one figure of the plan. */
        readonly Explanation: {
            /** @description Which formula, from a closed set */
            readonly code: string;
            /** @description How the figure is reckoned */
            readonly formula: string;
            /** @description What went in, by name */
            readonly inputs: {
                readonly [key: string]: number | string;
            };
            /** @description What the rule rests on */
            readonly source: string;
            /** @description Which source, from a closed set */
            readonly source_code: string;
        };
        /** @description The highest or lowest place of the subfloor. */
        readonly Extreme: {
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description True for a corner beyond the readings */
            readonly estimated: boolean;
            /** @description The reading that stands there, null where none does */
            readonly reading: string | null;
            /** @description Height (mm) */
            readonly z: number;
        };
        /** @description One plane of the top, z = a + b x + c y, over its polygon. */
        readonly Facet: {
            /** @description Height at the origin (mm) */
            readonly a: number;
            /** @description Rise per mm along x (mm) */
            readonly b: number;
            /** @description Rise per mm along y (mm) */
            readonly c: number;
            /** @description Where it holds (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
        };
        /** @description One facet of the top as built, against the top as designed. */
        readonly FallCheck: {
            /** @description Fall asked for, as a ratio; 0 for a level one */
            readonly designed: number;
            /** @description Way it falls, anticlockwise from +x; null where level (degree) */
            readonly direction: number | null;
            /** @description Which facet of the top, counted from 0 */
            readonly facet: number;
            /** @description Fall as built, by the plane that fits best; null for fewer than three */
            readonly fall: number | null;
            /** @description Readings of the bed on it */
            readonly readings: number;
        };
        /** @description One joint within the floor, from one end to the other. */
        readonly FieldJoint: {
            /** @description One end (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description J1 and on */
            readonly id: string;
            /** @description `slab` where the slab below has a joint, else `field` */
            readonly kind: string;
            /** @description From the nearest line of whole tiles, null for a slanting joint (mm) */
            readonly module_off: number | null;
            /** @description The other end (mm) */
            readonly to: readonly [
                number,
                number
            ];
            /** @description `slab`, `carried_on` from a joint of the slab, `inside_corner`, `cutout` or `spacing` */
            readonly why: string;
        };
        /** @description How the filling stands at a moment. */
        readonly FillClockAnswer: {
            /** @description What is still to come, the first first */
            readonly alarms: readonly components["schemas"]["Alarm"][];
            /** @description Every batch, the oldest first */
            readonly batches: readonly components["schemas"]["BatchClock"][];
            /** @description Null where nothing is filled yet, or all is */
            readonly best_stop: components["schemas"]["BestStop"] | null;
            /** @description What can hurt a person or spoil the bed, at this moment */
            readonly cautions: readonly components["schemas"]["Caution"][];
            /** @description Null until there is a pace, or where all is filled */
            readonly done: components["schemas"]["DoneTimes"] | null;
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description What stands behind a figure, by its path in this answer */
            readonly explanations: {
                readonly [key: string]: components["schemas"]["Explanation"];
            };
            /** @description Whether all is filled before the day ends; null where unknown */
            readonly fits_day: boolean | null;
            /** @description True while a stoppage lasts */
            readonly is_stopped: boolean;
            /** @description The last moment to mix a batch that is in place before the day ends */
            readonly last_batch_by: string | null;
            /** @description What to fill now, null where all is filled */
            readonly next_section: string | null;
            /** @description Entries left out, and why */
            readonly notices: readonly components["schemas"]["Problem"][];
            /** @description Null until a section is filled */
            readonly pace: components["schemas"]["Pace"] | null;
            /** @description In the order they are filled */
            readonly sections: readonly components["schemas"]["SectionClock"][];
            /** @description Edges left if work stops now, between filled and unfilled */
            readonly stop_edges: readonly components["schemas"]["OpenEdge"][];
            /** @description Hours stopped since the first batch (h) */
            readonly stopped_hours: number;
            /** @description How long a batch can be worked */
            readonly working_time: components["schemas"]["WorkingTime"];
        };
        /** @description A room, and the moment it is looked at. */
        readonly FillClockQuestion: {
            /** @description The room document */
            readonly document: components["schemas"]["Document"];
            /**
             * Format: date-time
             * @description The moment
             */
            readonly now: string;
        };
        /** @description How the filling goes: where the mixer stands, when the day ends. */
        readonly FillDesign: {
            /**
             * @description When work ends today
             * @default null
             */
            readonly day_ends?: string | null;
            /**
             * @description Where the mixer stands in the room; null where it stands outside (mm)
             * @default null
             */
            readonly mixer?: readonly [
                number,
                number
            ] | null;
        };
        /** @description Where to start: the station with the least shim of all. */
        readonly FirstStation: {
            /** @description The rail's id */
            readonly rail: string;
            /** @description The station, counted from 0 */
            readonly station: number;
        };
        /** @description A drain, flange or post standing in the bed. */
        readonly Fixture: {
            /** @description Its middle (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /**
             * @description Height of its top, z (mm)
             * @default null
             */
            readonly height?: number | null;
            readonly id?: string | null;
            /**
             * @description What it is
             * @enum {unknown}
             */
            readonly kind: "drain" | "flange" | "post";
            readonly radius?: number | null;
            /**
             * @description Other end of a linear drain, `at` being one end (mm)
             * @default null
             */
            readonly to?: readonly [
                number,
                number
            ] | null;
        };
        /** @description One fixture and the finished floor at it; of a linear drain the worst place along it. */
        readonly FixtureHeight: {
            /** @description Where it stands (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Least thickness of the bed there (mm) */
            readonly bed_thickness: number;
            /** @description Finished floor less the fixture's height: negative where the fixture stands above the floor (mm) */
            readonly difference: number | null;
            /** @description Top of tile there, z (mm) */
            readonly finished_height: number;
            /** @description Height of its top, z; null where it is unknown (mm) */
            readonly height: number | null;
            /** @description The fixture's id */
            readonly id: string;
            /** @description `drain`, `flange` or `post` */
            readonly kind: string;
        };
        /**
         * FixturePart
         * @description A drain, flange or post; a linear drain runs from `at` to `to`.
         */
        readonly FixturePart: {
            /**
             * At
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Height
             * @default null
             */
            readonly height?: number | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * Kind
             * @default null
             */
            readonly kind?: string | null;
            /**
             * Radius
             * @default null
             */
            readonly radius?: number | null;
            /**
             * To
             * @default null
             */
            readonly to?: readonly number[] | null;
        } & {
            readonly [key: string]: unknown;
        };
        /**
         * FlatCheck
         * @description One length of straightedge over the whole scanned bed, against one limit. Lengths are mm.
         */
        readonly FlatCheck: {
            /**
             * Beyond Share
             * @description Share of the read bed under a gap, or on a hump, beyond the limit
             */
            readonly beyond_share: number;
            /**
             * Code
             * @description What the limit rests on, from the engine's closed set
             */
            readonly code: string;
            /**
             * Decides
             * @description False for a mere note: the F-numbers decide
             */
            readonly decides: boolean;
            /** @description Worst place under it; null where nothing stands open */
            readonly gap: components["schemas"]["FlatPlace"] | null;
            /** @description Worst hump that it rocks on; null where there is none */
            readonly hump: components["schemas"]["FlatPlace"] | null;
            /**
             * Judged Share
             * @description Share of the bed where there is a height
             */
            readonly judged_share: number;
            /**
             * Length
             * @description Length of the straightedge
             */
            readonly length: number;
            /**
             * Limit
             * @description Most that may stand open under it
             */
            readonly limit: number;
            /**
             * Noise Gap
             * @description The worst that scatter of the points alone would show on a true plane
             */
            readonly noise_gap: number;
            /**
             * Spacing
             * @description From one height to the next: what is narrower is averaged
             */
            readonly spacing: number;
            /**
             * Sure
             * @description False where scatter alone could turn the verdict
             */
            readonly sure: boolean;
            /**
             * Verdict
             * @enum {string}
             */
            readonly verdict: "within" | "beyond" | "too_noisy" | "too_sparse";
        };
        /** @description How flat, level and true the finished bed is, by what was measured on it. */
        readonly FlatnessAnswer: {
            /** @description The long straightedge first */
            readonly checks: readonly components["schemas"]["StraightedgeCheck"][];
            /** @description Line by line */
            readonly f_lines: readonly components["schemas"]["LineNumbers"][];
            /** @description Why there are no F-numbers, a code; null where there are */
            readonly f_needs: string | null;
            /** @description Null where the readings allow none */
            readonly f_numbers: components["schemas"]["FNumbers"] | null;
            /** @description Gaps measured with a wedge */
            readonly gaps: readonly components["schemas"]["GapVerdict"][];
            /** @description When it will have hardened too far to be rubbed: as soon as it may be walked on; null where not known */
            readonly green_until: string | null;
            /** @description True where the bed could still be rubbed when it was last measured or worked over; null: not placed */
            readonly is_green: boolean | null;
            /** @description Against the designed top; null for fewer than three readings */
            readonly level: components["schemas"]["LevelCheck"] | null;
            /** @description Overall FF asked for, null where the standard asks for none */
            readonly needs_ff: number | null;
            /** @description Overall FL asked for, null where the standard asks for none */
            readonly needs_fl: number | null;
            /** @description Where to read next, so that the bed can be judged (mm) */
            readonly next_readings: readonly (readonly [
                number,
                number
            ])[];
            /** @description Read places, each with its height above the designed top as z; then middles of squares of them (mm) */
            readonly points: readonly (readonly [
                number,
                number,
                number
            ])[];
            /** @description Readings of the bed that count */
            readonly readings: number;
            /** @description How far a place of the bed is from the nearest reading, at most (mm) */
            readonly spacing: number | null;
            /** @description How many of the points were read, from the first on */
            readonly spots: number;
            /** @description Readings and gaps left out, for their place was rubbed or filled since */
            readonly stale: readonly string[];
            /**
             * @description Whose limits hold
             * @enum {unknown}
             */
            readonly standard: "ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4" | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own";
            /** @description Between them, within the walls */
            readonly triangles: readonly (readonly [
                number,
                number,
                number
            ])[];
            /**
             * @description Of all checks and measured gaps: the worst of them
             * @enum {unknown}
             */
            readonly verdict: "within" | "beyond" | "too_sparse" | "not_read";
            /** @description Where to rub down and fill up, the most effect first */
            readonly work: readonly components["schemas"]["Work"][];
        };
        /** @description Against which limits the bed is checked. */
        readonly FlatnessDesign: {
            readonly own?: readonly components["schemas"]["GapLimit"][] | null;
            readonly standard?: ("ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4" | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own") | null;
        };
        /**
         * FlatNumbers
         * @description F-numbers along lines both ways through the scanned bed, heights 300 mm apart, by ASTM E1155M.
         */
        readonly FlatNumbers: {
            /** Ff */
            readonly ff: number;
            /**
             * Fl
             * @description Null where no line is long enough; tells nothing of a bed that is to fall
             */
            readonly fl: number | null;
            /** Heights */
            readonly heights: number;
            /** Lines */
            readonly lines: number;
        };
        /**
         * FlatPlace
         * @description A straightedge where it lies worst, by the scan. Places are of the room, lengths mm.
         */
        readonly FlatPlace: {
            /**
             * At
             * @description Where it stands open most, or where the hump is highest
             */
            readonly at: readonly number[];
            /**
             * End
             * @description The other end
             */
            readonly end: readonly number[];
            /**
             * Gap
             * @description How far it stands open there, or how high the hump is
             */
            readonly gap: number;
            /**
             * Rests
             * @description Where it rests, or the feet of the hump
             */
            readonly rests: readonly (readonly number[])[];
            /**
             * Sigma
             * @description Standard error of that, from the scatter of the points alone
             */
            readonly sigma: number;
            /**
             * Start
             * @description One end of the straightedge
             */
            readonly start: readonly number[];
        };
        /** @description F-numbers by ASTM E1155M. */
        readonly FNumbers: {
            /** @description Overall FF, flatness */
            readonly ff: number;
            /** @description Overall FL, levelness; null where no line is long enough, or the top falls */
            readonly fl: number | null;
            /** @description Heights in those lines */
            readonly heights: number;
            /** @description Lines of heights they rest on */
            readonly lines: number;
        };
        /** @description A day foretold: its low and its high, each at its time; between them the temperature swings as half a wave. */
        readonly ForecastDay: {
            /** @description Highest temperature of the air (Cel) */
            readonly high: number;
            /**
             * Format: date-time
             * @description When it is warmest, usually in mid-afternoon
             */
            readonly high_at: string;
            /**
             * @description Relative humidity when it is warmest (%)
             * @default null
             */
            readonly humidity?: number | null;
            readonly id?: string | null;
            /** @description Lowest temperature of the air (Cel) */
            readonly low: number;
            /**
             * Format: date-time
             * @description When it is coldest, usually about sunrise
             */
            readonly low_at: string;
            /**
             * @description Wind speed when it is warmest (km/h)
             * @default null
             */
            readonly wind?: number | null;
        };
        /**
         * ForecastDayFields
         * @description A day foretold where the job is: its low and high in °C, each at its time; %, km/h. The later record holds.
         */
        readonly ForecastDayFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /** High */
            readonly high: number;
            /**
             * High At
             * Format: date-time
             */
            readonly high_at: string;
            /**
             * Humidity
             * @default null
             */
            readonly humidity?: number | null;
            /** Job Id */
            readonly job_id: string;
            /** Low */
            readonly low: number;
            /**
             * Low At
             * Format: date-time
             */
            readonly low_at: string;
            /**
             * Source
             * @description Where it is from; null: somebody typed it
             * @default null
             */
            readonly source?: string | null;
            /**
             * Wind
             * @default null
             */
            readonly wind?: number | null;
        };
        /**
         * ForecastReply
         * @description The days foretold, in order. Nothing of them is stored until a phone sends them as records.
         */
        readonly ForecastReply: {
            /** Days */
            readonly days: readonly components["schemas"]["ForetoldDay"][];
        };
        /**
         * ForetoldDay
         * @description A day foretold: its low and its high in °C, each at its time; %, km/h; as `forecast_day` records have it.
         */
        readonly ForetoldDay: {
            /** High */
            readonly high: number;
            /**
             * High At
             * Format: date-time
             */
            readonly high_at: string;
            /** Humidity */
            readonly humidity: number | null;
            /** Low */
            readonly low: number;
            /**
             * Low At
             * Format: date-time
             */
            readonly low_at: string;
            /**
             * Source
             * @description The host that foretold it
             */
            readonly source: string;
            /** Wind */
            readonly wind: number | null;
        };
        /** @description The columns as the table was read by them. */
        readonly FoundColumns: {
            /** @description Description */
            readonly description: number | null;
            /** @description Below the level line, in place of an elevation */
            readonly down: number | null;
            /** @description Easting, x on the drawing */
            readonly easting: number | null;
            /** @description Elevation, z */
            readonly elevation: number | null;
            /** @description Northing, y on the drawing */
            readonly northing: number | null;
            /** @description Name or number of the point */
            readonly point: number | null;
        };
        /**
         * GapFields
         * @description What a wedge showed under a straightedge on the bed: from one end to the other, mm.
         */
        readonly GapFields: {
            /**
             * At
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /** From */
            readonly from: readonly number[];
            /** Gap */
            readonly gap: number;
            /**
             * Passed Over
             * @description The straightedge was passed over the whole bed: the worst it showed
             * @default null
             */
            readonly passed_over?: boolean | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Taken At
             * @default null
             */
            readonly taken_at?: string | null;
            /** To */
            readonly to: readonly number[];
            /**
             * Typed
             * @default null
             */
            readonly typed?: {
                readonly [key: string]: string;
            } | null;
        };
        /** @description The most that may stand open under a straightedge of one length. */
        readonly GapLimit: {
            /** @description Most that may stand open under it (mm) */
            readonly gap: number;
            /** @description Length of the straightedge (mm) */
            readonly length: number;
        };
        /**
         * GapLimitPart
         * @description The most that may stand open under a straightedge of one length; mm.
         */
        readonly GapLimitPart: {
            /**
             * Gap
             * @default null
             */
            readonly gap?: number | null;
            /**
             * Length
             * @default null
             */
            readonly length?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description A gap measured with a wedge, against the limit for that length of straightedge. */
        readonly GapVerdict: {
            /** @description The measured gap's id */
            readonly gap: string;
            /** @description Length of the straightedge that lay there (mm) */
            readonly length: number;
            /** @description Most that may stand open; null where no limit is for so short a straightedge (mm) */
            readonly limit: number | null;
            /** @description What the wedge showed (mm) */
            readonly measured: number;
            /**
             * @description Against that limit
             * @enum {unknown}
             */
            readonly verdict: "within" | "beyond" | "no_limit";
        };
        /** @description A place that no straightedge on a pair of rails serves, and how it is finished. */
        readonly HandArea: {
            /** @description How much bed there is in it (m2) */
            readonly area: number;
            /** @description Its middle (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description H1, H2, ... from one side to the other */
            readonly id: string;
            /**
             * @description What kind of place
             * @enum {unknown}
             */
            readonly kind: "beside_wall" | "rail_end" | "alcove" | "behind_fixture" | "doorway" | "narrow" | "between";
            /** @description The place itself, anticlockwise (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
            /** @description The short straightedge that fits, null for none (mm) */
            readonly straightedge: number | null;
            /**
             * @description How it is finished
             * @enum {unknown}
             */
            readonly way: "overhanging_straightedge" | "short_straightedge" | "float";
        };
        /**
         * HealthReply
         * @description The service is up and its database answers.
         */
        readonly HealthReply: {
            /** Database */
            readonly database: string;
            /**
             * Protocol
             * @default 2
             */
            readonly protocol?: number;
            /**
             * Status
             * @default ok
             * @constant
             */
            readonly status?: "ok";
            /** Version */
            readonly version: string;
        };
        /** @description Heights along a straight line over the bed, equally far apart, as a profile is measured for F-numbers. */
        readonly HeightLine: {
            /**
             * @description Where the first was taken; null: not told (mm)
             * @default null
             */
            readonly from?: readonly [
                number,
                number
            ] | null;
            /** @description Heights in order, of any zero (mm) */
            readonly heights: readonly number[];
            readonly id?: string | null;
            readonly spacing?: number | null;
            /**
             * @description When it was measured
             * @default null
             */
            readonly taken_at?: string | null;
            /**
             * @description Towards where the line runs; null: not told (mm)
             * @default null
             */
            readonly to?: readonly [
                number,
                number
            ] | null;
        };
        /**
         * HeightLineFields
         * @description Heights along a straight line over the bed, equally far apart, mm.
         */
        readonly HeightLineFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * From
             * @default null
             */
            readonly from?: readonly number[] | null;
            /** Heights */
            readonly heights: readonly number[];
            /** Room Id */
            readonly room_id: string;
            /**
             * Spacing
             * @default null
             */
            readonly spacing?: number | null;
            /**
             * Taken At
             * @default null
             */
            readonly taken_at?: string | null;
            /**
             * To
             * @default null
             */
            readonly to?: readonly number[] | null;
            /**
             * Typed
             * @default null
             */
            readonly typed?: {
                readonly [key: string]: string;
            } | null;
        };
        /**
         * @description One place where the finished floor is held: at a doorway, a fixture or anywhere.
         *
         *         Without `low` and `high` the finished floor meets what is there: the floor beyond the doorway, the fixture's top.
         */
        readonly Held: {
            /**
             * @description Or any place in the room (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            /**
             * @description Id of the fixture
             * @default null
             */
            readonly fixture?: string | null;
            /**
             * @description Highest finished floor allowed there, z (mm)
             * @default null
             */
            readonly high?: number | null;
            /**
             * @description Lowest finished floor allowed there, z (mm)
             * @default null
             */
            readonly low?: number | null;
            /**
             * @description Id of the doorway; held along its whole opening
             * @default null
             */
            readonly opening?: string | null;
        };
        /**
         * HeldPart
         * @description One place where the finished floor is held, between two heights or at what is there.
         */
        readonly HeldPart: {
            /**
             * At
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Fixture
             * @default null
             */
            readonly fixture?: string | null;
            /**
             * High
             * @default null
             */
            readonly high?: number | null;
            /**
             * Low
             * @default null
             */
            readonly low?: number | null;
            /**
             * Opening
             * @default null
             */
            readonly opening?: string | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description How likely the true high spot stands above the highest reading by more than an amount. */
        readonly Higher: {
            /** @description The amount (mm) */
            readonly by: number;
            /** @description How likely */
            readonly probability: number;
        };
        /**
         * HistoryEntry
         * @description One change of a record: what it said, what it replaced, and what else was going on.
         */
        readonly HistoryEntry: {
            /**
             * At
             * Format: date-time
             * @description When the edit was made, the device's clock corrected
             */
            readonly at: string;
            /** @description Who brought it in a file; null where nobody did */
            readonly brought_by?: components["schemas"]["Bringer"] | null;
            /** Change Id */
            readonly change_id: string;
            /**
             * Concurrent
             * @description Fields where this change and the value it met were made without knowing of each other
             */
            readonly concurrent: readonly string[];
            /** Device Id */
            readonly device_id: string;
            /** Device Name */
            readonly device_name: string;
            /** Fields */
            readonly fields: {
                readonly [key: string]: components["schemas"]["JsonValue"];
            };
            /**
             * Overruled
             * @description Those among `concurrent` where the value it met was the later edit and stayed
             */
            readonly overruled: readonly string[];
            /** Person */
            readonly person: string;
            /**
             * Replaced
             * @description The values that stood before, where this change took their place
             */
            readonly replaced: {
                readonly [key: string]: components["schemas"]["JsonValue"];
            };
            /** Sequence */
            readonly sequence: number;
        };
        /**
         * HistoryReply
         * @description Every change of one record, oldest first.
         */
        readonly HistoryReply: {
            /** Entries */
            readonly entries: readonly components["schemas"]["HistoryEntry"][];
        };
        /** @description The engine's name for itself. */
        readonly Identity: {
            /** @description SHA-256 over its source files, in hexadecimal */
            readonly hash: string;
            /** @description Version of what the engine computes */
            readonly version: string;
        };
        /**
         * @description What a test of an instrument showed. Its error is taken off readings made later, where a person agreed.
         *
         *         `two_peg`: `first` are the readings on pegs A and B from the middle, `second` those from beyond, `sights` the
         *         lengths of the second pair. `flip`: a level over `length`, `off` and, turned end for end, `reversed_off` (+ where
         *         the same end of the floor, the one ahead, is shown high). `rod`: `offset` is what the rod reads too much.
         */
        readonly InstrumentCheck: {
            readonly accepted?: boolean | null;
            /**
             * @description When it was made; without a time it holds for every reading of the instrument
             * @default null
             */
            readonly at?: string | null;
            /**
             * @description Readings on A and B from the middle (mm)
             * @default null
             */
            readonly first?: readonly [
                number,
                number
            ] | null;
            readonly id?: string | null;
            /** @description Which instrument */
            readonly instrument: string;
            /**
             * @description Which test
             * @enum {unknown}
             */
            readonly kind: "two_peg" | "flip" | "rod";
            /**
             * @description Length of the level (mm)
             * @default null
             */
            readonly length?: number | null;
            /**
             * @description How far out the level showed (mm)
             * @default null
             */
            readonly off?: number | null;
            /**
             * @description What the rod reads too much (mm)
             * @default null
             */
            readonly offset?: number | null;
            /**
             * @description The same, turned end for end (mm)
             * @default null
             */
            readonly reversed_off?: number | null;
            /**
             * @description Readings on A and B from beyond (mm)
             * @default null
             */
            readonly second?: readonly [
                number,
                number
            ] | null;
            /**
             * @description Sight lengths of the second pair (mm)
             * @default null
             */
            readonly sights?: readonly [
                number,
                number
            ] | null;
        };
        /**
         * InstrumentCheckPart
         * @description A test of an instrument: what was read, and whether later readings are corrected by what it found.
         */
        readonly InstrumentCheckPart: {
            /**
             * Accepted
             * @default null
             */
            readonly accepted?: boolean | null;
            /**
             * At
             * @default null
             */
            readonly at?: string | null;
            /**
             * First
             * @default null
             */
            readonly first?: readonly number[] | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * Instrument
             * @default null
             */
            readonly instrument?: string | null;
            /**
             * Kind
             * @default null
             */
            readonly kind?: string | null;
            /**
             * Length
             * @default null
             */
            readonly length?: number | null;
            /**
             * Off
             * @default null
             */
            readonly off?: number | null;
            /**
             * Offset
             * @default null
             */
            readonly offset?: number | null;
            /**
             * Reversed Off
             * @default null
             */
            readonly reversed_off?: number | null;
            /**
             * Second
             * @default null
             */
            readonly second?: readonly number[] | null;
            /**
             * Sights
             * @default null
             */
            readonly sights?: readonly number[] | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description What a test of an instrument found. */
        readonly InstrumentError: {
            /** @description The check's id */
            readonly check: string;
            /** @description Which instrument */
            readonly instrument: string;
            /** @description What its rod reads too much, null where the test does not tell (mm) */
            readonly offset: number | null;
            /** @description How many readings it was taken off */
            readonly readings: number;
            /** @description How much its line rises, null where the test does not tell (mm/m) */
            readonly tilt: number | null;
        };
        /**
         * InstrumentPart
         * @description An instrument as the crew calls it, with what it is good for.
         */
        readonly InstrumentPart: {
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * Kind
             * @default null
             */
            readonly kind?: string | null;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /**
             * Sigma
             * @default null
             */
            readonly sigma?: number | null;
            /**
             * Sigma Per Metre
             * @default null
             */
            readonly sigma_per_metre?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /**
         * InviteReply
         * @description A code for one device, shown this once.
         */
        readonly InviteReply: {
            /** Code */
            readonly code: string;
            /**
             * Expires At
             * Format: date-time
             */
            readonly expires_at: string;
            /** Person Id */
            readonly person_id: string;
        };
        /**
         * InviteRequest
         * @description Let somebody in: a new person by name and role, or another device of a known one by id. One of the two.
         */
        readonly InviteRequest: {
            /** Name */
            readonly name?: string | null;
            /** Person Id */
            readonly person_id?: string | null;
            /**
             * Role
             * @description Needed for a new person; a known one keeps theirs
             */
            readonly role?: ("foreman" | "setter" | "viewer") | null;
        } & ({
            readonly name: string;
            readonly person_id?: null;
            readonly role: string;
        } | {
            readonly name?: null;
            readonly person_id: string;
        });
        /**
         * JobChange
         * @description One change of a job's records as it was sent, with what a file needs to tell of it.
         */
        readonly JobChange: {
            /**
             * At
             * Format: date-time
             * @description When the edit was made, the device's clock corrected
             */
            readonly at: string;
            /** @description Who brought it in a file; null where nobody did */
            readonly brought_by?: components["schemas"]["Bringer"] | null;
            /** Change Id */
            readonly change_id: string;
            /** Device Id */
            readonly device_id: string;
            /** Device Name */
            readonly device_name: string;
            /** Fields */
            readonly fields: {
                readonly [key: string]: components["schemas"]["JsonValue"];
            };
            /**
             * Kind
             * @enum {string}
             */
            readonly kind: "job" | "room" | "reading" | "placement" | "batch" | "station" | "rail_check" | "entry" | "climate" | "photo" | "alternative" | "gap" | "height_line" | "temperature_log" | "forecast_day" | "sign_off" | "prices" | "supplies";
            /**
             * Knew
             * @description What its maker had seen of the record: of every device that had edited it, the last change known
             */
            readonly knew: readonly string[];
            /**
             * Overruled
             * @description Fields where the value it met was the later edit and stayed
             */
            readonly overruled: readonly string[];
            /** Person */
            readonly person: string;
            /** Record Id */
            readonly record_id: string;
            /**
             * Schema
             * @description Version of what the fields mean
             */
            readonly schema: number;
            /** Sequence */
            readonly sequence: number;
        };
        /**
         * JobFields
         * @description A job: one address, one customer, some rooms.
         */
        readonly JobFields: {
            /**
             * Crew
             * @description Who is assigned, by person id; a foreman's choice. Never set: whoever made the job
             * @default null
             */
            readonly crew?: readonly string[] | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Latitude
             * @description Where it is, degrees north; for the weather to come
             * @default null
             */
            readonly latitude?: number | null;
            /**
             * Longitude
             * @description Degrees east
             * @default null
             */
            readonly longitude?: number | null;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /**
             * Place
             * @default null
             */
            readonly place?: string | null;
            /**
             * Units
             * @default null
             */
            readonly units?: ("imperial" | "metric") | null;
        };
        /**
         * JobFileReply
         * @description All of the file is here now. Sent once more it changes nothing, and says so.
         */
        readonly JobFileReply: {
            /**
             * Changes
             * @description That were new
             */
            readonly changes: number;
            /**
             * Has History
             * @description Whether the file held the whole history of the job
             */
            readonly has_history: boolean;
            /**
             * Job
             * @description Its id: that of the job in the file
             */
            readonly job: string;
            /**
             * Known
             * @description Changes that were here already
             */
            readonly known: number;
            /**
             * Outcome
             * @enum {string}
             */
            readonly outcome: "taken" | "nothing_new";
            /**
             * Photos
             * @description That were new
             */
            readonly photos: number;
            /**
             * Photos Missing
             * @description Of the job, and not in the file
             */
            readonly photos_missing: number;
            /**
             * Unknown
             * @description Names in the file that this version does not know, and left out; some of them
             */
            readonly unknown: readonly string[];
        };
        /**
         * JobHistoryReply
         * @description A page of the changes of a job's records. Ask again after `next` while `more` is true.
         */
        readonly JobHistoryReply: {
            /** Changes */
            readonly changes: readonly components["schemas"]["JobChange"][];
            /** Database */
            readonly database: string;
            /** Latest */
            readonly latest: number;
            /** More */
            readonly more: boolean;
            /** Next */
            readonly next: number;
        };
        /**
         * JoinReply
         * @description The device has joined; `token` is shown this once.
         */
        readonly JoinReply: {
            /**
             * Database
             * @description Random identity of the database; changes when it is restored from a backup
             */
            readonly database: string;
            /** Device Id */
            readonly device_id: string;
            /** Person */
            readonly person: string;
            /** Person Id */
            readonly person_id: string;
            /**
             * Protocol
             * @default 2
             */
            readonly protocol?: number;
            /**
             * Role
             * @enum {string}
             */
            readonly role: "foreman" | "setter" | "viewer";
            /**
             * Server Time
             * Format: date-time
             */
            readonly server_time: string;
            /** Token */
            readonly token: string;
        };
        /**
         * JoinRequest
         * @description A device asks to join with the code it was given.
         */
        readonly JoinRequest: {
            /** Code */
            readonly code: string;
            /** Device Id */
            readonly device_id: string;
            /** Device Name */
            readonly device_name: string;
            /**
             * Person
             * @description Needed where the code does not say who it is for: `name_needed`
             */
            readonly person?: string | null;
        };
        /** @description What the movement joints follow from. */
        readonly JointDesign: {
            readonly expansion?: number | null;
            readonly exposure?: ("indoors" | "sun_or_wet" | "outdoors") | null;
            readonly sealant_movement?: number | null;
            readonly slab_joints?: readonly (readonly [
                readonly [
                    number,
                    number
                ],
                readonly [
                    number,
                    number
                ]
            ])[] | null;
            /**
             * @description Most between joints, null for the handbook's (mm)
             * @default null
             */
            readonly spacing?: number | null;
            /**
             * @description Range of temperature the floor goes through, null where unknown (K)
             * @default null
             */
            readonly temperature_range?: number | null;
        };
        /** @description The movement joints of a room. */
        readonly JointsAnswer: {
            /** @description Which edition of which rules, and how it is known */
            readonly edition: string;
            /** @description Joints within the floor */
            readonly field: readonly components["schemas"]["FieldJoint"][];
            /** @description `published` or `movement`: which of the two is greater */
            readonly governs: string;
            /** @description The longest side of any panel (mm) */
            readonly longest_panel: number;
            /** @description How much the longest panel grows, null where no range is known (mm) */
            readonly movement: number | null;
            /** @description What the joints leave, together the floor */
            readonly panels: readonly components["schemas"]["Panel"][];
            /** @description Along walls, cutouts and fixtures */
            readonly perimeter: components["schemas"]["PerimeterJoint"];
            /** @description How far apart joints may be */
            readonly spacing: components["schemas"]["JointSpacing"];
            /** @description Joints in the floor lie on these lines where they can */
            readonly tile_module: components["schemas"]["TileModule"];
            /** @description Width of the joints in the floor: the greater of the two below (mm) */
            readonly width: number;
            /** @description Width the movement asks for, null where no range is known (mm) */
            readonly width_by_movement: number | null;
            /** @description Width that the handbook asks for (mm) */
            readonly width_published: number;
        };
        /** @description How far apart joints may be. */
        readonly JointSpacing: {
            /** @description The handbook's range, lower end (mm) */
            readonly least: number;
            /** @description The handbook's range, upper end (mm) */
            readonly most: number;
            /** @description No panel is longer than this (mm) */
            readonly used: number;
        };
        readonly JsonValue: unknown;
        /**
         * KnownDevice
         * @description A device that has joined; `removed_at` says since when it may neither read nor write.
         */
        readonly KnownDevice: {
            /** Id */
            readonly id: string;
            /**
             * Joined At
             * Format: date-time
             */
            readonly joined_at: string;
            /** Last Seen At */
            readonly last_seen_at: string | null;
            /** Name */
            readonly name: string;
            /** Removed At */
            readonly removed_at: string | null;
        };
        /**
         * KnownPerson
         * @description Somebody who was let in, or is expected: then there are no devices yet.
         */
        readonly KnownPerson: {
            /** Devices */
            readonly devices: readonly components["schemas"]["KnownDevice"][];
            /** Id */
            readonly id: string;
            /** Name */
            readonly name: string;
            /**
             * Role
             * @enum {string}
             */
            readonly role: "foreman" | "setter" | "viewer";
        };
        /** @description Hours of one person, and what an hour costs. */
        readonly Labour: {
            readonly chipping?: number | null;
            readonly chipping_depth?: number | null;
            /**
             * @description An hour of one person
             * @default null
             */
            readonly hour?: number | null;
            readonly per_area?: number | null;
            readonly per_volume?: number | null;
            readonly set_up?: number | null;
        };
        /** @description The strip a rail is made of. */
        readonly LaidStrip: {
            /** @description Length of one (mm) */
            readonly length: number;
            /** @description Height as it lies (mm) */
            readonly thickness: number;
            /** @description Width as it lies (mm) */
            readonly width: number;
        };
        /**
         * LatestEvent
         * @description There is something to pull.
         */
        readonly LatestEvent: {
            /** Latest */
            readonly latest: number;
            /** View */
            readonly view: number;
        };
        /** @description One layer, or all of them together. */
        readonly Layer: {
            /**
             * @description Which; the bed is here without the membrane under it, the total is all of them
             * @enum {unknown}
             */
            readonly layer: "membrane" | "bed" | "bond_coat" | "tile" | "total";
            /** @description Least thickness; of the bed negative where the top lies below the subfloor (mm) */
            readonly least: number;
            /** @description Mean thickness (mm) */
            readonly mean: number;
            /** @description Greatest thickness (mm) */
            readonly most: number;
        };
        /** @description The plane that uses the least mortar of all that keep the thickness, the held heights and the largest fall. */
        readonly LeastTop: {
            readonly holds?: readonly components["schemas"]["Held"][] | null;
            readonly kind?: "least_mortar" | null;
            /**
             * @description Steepest the top may be, null for the steepest that is still a floor
             * @default null
             */
            readonly largest_fall?: number | null;
        };
        /** @description The bed as built against the top as designed: + where the bed is high. */
        readonly LevelCheck: {
            /** @description Facet by facet */
            readonly falls: readonly components["schemas"]["FallCheck"][];
            /** @description Highest above the top (mm) */
            readonly highest: number;
            /** @description Where (mm) */
            readonly highest_at: readonly [
                number,
                number
            ];
            /** @description Lowest, below the top where it is negative (mm) */
            readonly lowest: number;
            /** @description Where (mm) */
            readonly lowest_at: readonly [
                number,
                number
            ];
            /** @description Mean of what the bed is high by (mm) */
            readonly mean: number;
            /** @description Root mean square about that mean (mm) */
            readonly rms: number;
            /** @description Low places of a falling top from which no water runs off (mm) */
            readonly standing_water: readonly (readonly [
                number,
                number
            ])[];
        };
        /** @description What one level is out by: + where it shows its `to` end too high. */
        readonly LevelError: {
            /** @description How many readings were taken both ways round */
            readonly flips: number;
            /** @description Which level; empty where none was named */
            readonly level: string;
            /** @description Its error (mm/m) */
            readonly per_metre: number;
            /** @description Standard error of that (mm/m) */
            readonly sigma: number;
        };
        /** @description What a loop misses by: a mark's or place's height by way of one set-up, less its height by another. */
        readonly LevelMisclosure: {
            /** @description The re-read place, null for a mark (mm) */
            readonly at: readonly [
                number,
                number
            ] | null;
            /** @description How much (mm) */
            readonly by: number;
            /** @description The mark, empty for a re-read place */
            readonly mark: string;
            /** @description The set-ups and differences of the loop, from the first to the last */
            readonly setups: readonly string[];
        };
        /** @description The levels of a room. */
        readonly LevelsAnswer: {
            /** @description What z = 0 is: `benchmark` or `highest_reading` */
            readonly datum: string;
            /** @description Levelled differences */
            readonly differences: readonly components["schemas"]["DifferenceFit"][];
            /** @description In the order of the readings */
            readonly heights: readonly components["schemas"]["ReadHeight"][];
            /** @description What the tests of the instruments found */
            readonly instruments: readonly components["schemas"]["InstrumentError"][];
            /** @description Marks that were read or are known */
            readonly marks: readonly components["schemas"]["MarkHeight"][];
            /** @description What the loops miss by, the worst first */
            readonly misclosures: readonly components["schemas"]["LevelMisclosure"][];
            /** @description Where to read next */
            readonly next_readings: readonly components["schemas"]["NextReading"][];
            /** @description Measurements beyond those needed */
            readonly redundancy: number;
            /** @description Set-ups */
            readonly setups: readonly components["schemas"]["SetupHeight"][];
            /** @description Standard error of unit weight, a posteriori; null where nothing is checked */
            readonly sigma0: number | null;
            /** @description Readings that look mis-read, the worst first */
            readonly suspects: readonly components["schemas"]["Suspect"][];
            /** @description Set-ups that nothing ties to the benchmark */
            readonly untied: readonly components["schemas"]["Untied"][];
        };
        /** @description What levels alone are asked of: readings, levelled differences, or both, of no room in particular. */
        readonly LevelsDocument: {
            readonly adjustment?: components["schemas"]["Adjustment"] | null;
            readonly differences?: readonly components["schemas"]["Difference"][] | null;
            /**
             * @description The version of this format
             * @enum {unknown}
             */
            readonly document: 1;
            readonly instrument_checks?: readonly components["schemas"]["InstrumentCheck"][] | null;
            readonly marks?: readonly components["schemas"]["Mark"][] | null;
            readonly readings?: readonly components["schemas"]["Reading"][] | null;
            readonly setups?: readonly components["schemas"]["Setup"][] | null;
            readonly touches?: readonly components["schemas"]["Touch"][] | null;
        };
        /** @description The levels of a document, whatever room they are of. */
        readonly LevelsReport: {
            /** @description What z = 0 is: `benchmark` or `highest_reading` */
            readonly datum: string;
            /** @description Levelled differences */
            readonly differences: readonly components["schemas"]["DifferenceFit"][];
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description In the order of the readings */
            readonly heights: readonly components["schemas"]["ReadHeight"][];
            /** @description What the tests of the instruments found */
            readonly instruments: readonly components["schemas"]["InstrumentError"][];
            /** @description Marks that were read or are known */
            readonly marks: readonly components["schemas"]["MarkHeight"][];
            /** @description What the loops miss by, the worst first */
            readonly misclosures: readonly components["schemas"]["LevelMisclosure"][];
            /** @description Keys and parts of the document that were left out */
            readonly notices: readonly components["schemas"]["Problem"][];
            /** @description Measurements beyond those needed */
            readonly redundancy: number;
            /** @description Set-ups */
            readonly setups: readonly components["schemas"]["SetupHeight"][];
            /** @description Standard error of unit weight, a posteriori; null where nothing is checked */
            readonly sigma0: number | null;
            /** @description Readings that look mis-read, the worst first */
            readonly suspects: readonly components["schemas"]["Suspect"][];
            /** @description Set-ups that nothing ties to the benchmark */
            readonly untied: readonly components["schemas"]["Untied"][];
        };
        /** @description A level top, at a height or at the lowest that keeps the minimum thickness. */
        readonly LevelTop: {
            /**
             * @description z of the top, or null for the lowest that keeps the minimum thickness (mm)
             * @default null
             */
            readonly height?: number | null;
            readonly kind?: "level" | null;
        };
        /** @description F-numbers of one line alone. */
        readonly LineNumbers: {
            /** @description FF */
            readonly ff: number;
            /** @description FL; null for a line of fewer than 12 heights */
            readonly fl: number | null;
            /** @description How many heights */
            readonly heights: number;
            /** @description The height line's id, or the ids of its first and last reading */
            readonly line: string;
        };
        /** @description Load of the bed alone, of what will lie on it, and of both. */
        readonly Load: {
            /** @description Load of tile and bond coat (kg/m2) */
            readonly covering: number;
            /** @description Load of tile and bond coat (lb/ft2) */
            readonly covering_lb_ft2: number;
            /** @description Load of the bed alone at the thickest spot (kg/m2) */
            readonly max: number;
            /** @description Load of the bed alone at the thickest spot (lb/ft2) */
            readonly max_lb_ft2: number;
            /** @description Mean load of the bed alone (kg/m2) */
            readonly mean: number;
            /** @description Mean load of the bed alone (lb/ft2) */
            readonly mean_lb_ft2: number;
            /** @description Bed and covering of the whole room (kg) */
            readonly total_mass: number;
            /** @description Load of bed and covering at the thickest spot (kg/m2) */
            readonly total_max: number;
            /** @description Load of bed and covering at the thickest spot (lb/ft2) */
            readonly total_max_lb_ft2: number;
            /** @description Mean load of bed and covering (kg/m2) */
            readonly total_mean: number;
            /** @description Mean load of bed and covering (lb/ft2) */
            readonly total_mean_lb_ft2: number;
        };
        /** @description How the file was read, and what it says. With any problem there are no rows. */
        readonly LogInAnswer: {
            /** @description At each of those (Cel) */
            readonly celsius: readonly number[];
            /** @description By how many minutes the clock was set in the file: -60, 0 or 60 */
            readonly clock_set_by: number;
            /** @description The first line after the clock was set, null where it was not */
            readonly clock_set_line: number | null;
            /** @description True where days, months or years could be the other way round */
            readonly day_doubtful: boolean;
            /** @description As the file was read */
            readonly day_first: boolean;
            /** @description Lines that repeat a moment with the same temperature, left out */
            readonly doubled: number;
            /** @description The first lines as they stand, cell by cell */
            readonly first_rows: readonly (readonly string[])[];
            /** @description Warmest (Cel) */
            readonly highest: number | null;
            /** @description Coldest (Cel) */
            readonly lowest: number | null;
            /** @description Lines without a temperature, left out */
            readonly missing: number;
            /** @description The header's words, empty without one */
            readonly names: readonly string[];
            /** @description Offset from UTC as the file was read, where it begins, minutes */
            readonly offset_minutes: number;
            /**
             * @description Why: as asked, named in the header, or in every time itself
             * @enum {unknown}
             */
            readonly offset_reason: "chosen" | "header" | "times";
            /**
             * @description How the lines stood; they are put in order of time
             * @enum {unknown}
             */
            readonly order: "rising" | "falling" | "mixed";
            /** @description Lines at the end that are no rows, left out: a summary, or a row cut off */
            readonly passed_over: number;
            /** @description How many problems there are in all */
            readonly problem_count: number;
            /** @description Everything wrong, line by line, up to a limit */
            readonly problems: readonly components["schemas"]["Problem"][];
            /** @description Lines with a time */
            readonly row_count: number;
            /** @description After the start, rising (s) */
            readonly seconds: readonly number[];
            /** @description The first moment, null where there is none */
            readonly start: string | null;
            /** @description Which column the temperatures are from */
            readonly temperature_column: number | null;
            /** @description True where other columns may hold the temperatures as well */
            readonly temperature_doubtful: boolean;
            /** @description Which column the times are from */
            readonly time_column: number | null;
            /** @description True where another column holds other times */
            readonly time_doubtful: boolean;
            /**
             * @description As the file was read
             * @enum {unknown}
             */
            readonly unit: "celsius" | "fahrenheit";
            /**
             * @description Why that unit
             * @enum {unknown}
             */
            readonly unit_reason: "chosen" | "header" | "sign" | "size";
            /**
             * @description Where the logger lay
             * @enum {unknown}
             */
            readonly where: "bed" | "air";
            /** @description As the file was read: of a date's three numbers the first is the year */
            readonly year_first: boolean;
        };
        /** @description What a logger wrote, as text: a table with a column of times and one or more of temperatures. */
        readonly LogInQuestion: {
            /**
             * @description 01/02 is 1 February; null: told from the file if it can be
             * @default null
             */
            readonly day_first?: boolean | null;
            readonly offset_minutes?: number | null;
            /**
             * @description Counted from 0; null: found
             * @default null
             */
            readonly temperature_column?: number | null;
            /** @description The whole file */
            readonly text: string;
            /**
             * @description Counted from 0; null: found
             * @default null
             */
            readonly time_column?: number | null;
            /**
             * @description Null: told from the header, or guessed
             * @default null
             */
            readonly unit?: ("celsius" | "fahrenheit") | null;
            readonly where?: ("bed" | "air") | null;
            /**
             * @description 01/02/03 is of 2001; null: told from the file if it can be
             * @default null
             */
            readonly year_first?: boolean | null;
        };
        /** @description A straightedge where it lies worst: on a high place at each side of a gap, or rocking on a hump. */
        readonly Lying: {
            /** @description Where it stands open most, or where the hump is highest (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description One end of the straightedge (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description How far it stands open there, or how high the hump is (mm) */
            readonly gap: number;
            /** @description Where it rests, or the feet of the hump (mm) */
            readonly rests: readonly [
                readonly [
                    number,
                    number
                ],
                readonly [
                    number,
                    number
                ]
            ];
            /** @description Standard error of that, from the readings alone (mm) */
            readonly sigma: number;
            /** @description The other end (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /** @description A mark that can be read again; a benchmark where its height is known. */
        readonly Mark: {
            /**
             * @description Known height, z (mm)
             * @default null
             */
            readonly height?: number | null;
            /** @description Its name in this document */
            readonly id: string;
        };
        /** @description One mark's height. */
        readonly MarkHeight: {
            /** @description The mark's id */
            readonly id: string;
            /** @description Standard error, 0 for a benchmark, null without a height (mm) */
            readonly sigma: number | null;
            /** @description Height, known or found, null where nothing ties it to the benchmark (mm) */
            readonly z: number | null;
        };
        /**
         * MarkPart
         * @description A mark, with its height in mm where it is known.
         */
        readonly MarkPart: {
            /**
             * Height
             * @default null
             */
            readonly height?: number | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description One thing to buy or carry in. */
        readonly Material: {
            /** @description Code of `why`, from a closed set */
            readonly code: string;
            /** @description Sand with its own water, as delivered; null for all else (kg) */
            readonly damp_mass: number | null;
            /** @description cement, lime, sand, water, membrane, reinforcement, perimeter_strip, bond_coat or tile */
            readonly item: string;
            /** @description Least and most volume, measured loose (m3) */
            readonly loose_range: readonly [
                number,
                number
            ] | null;
            /** @description Volume as measured loose, or null for what is not (m3) */
            readonly loose_volume: number | null;
            /** @description What one package gives, in `package_unit`, laps at its end taken off */
            readonly package_size: number | null;
            /** @description Unit of `package_size`, or null */
            readonly package_unit: string | null;
            /** @description Whole packages, or null where it does not come in any */
            readonly packages: number | null;
            /** @description Fewest and most whole packages */
            readonly packages_range: readonly [
                number,
                number
            ] | null;
            /** @description How much, laps and waste included, not rounded; sand weighed dry */
            readonly quantity: number;
            /** @description Least and most, where it follows how well the floor was read */
            readonly quantity_range: readonly [
                number,
                number
            ] | null;
            /** @description The quantity's unit: kg, m or m2 */
            readonly unit: string;
            /** @description The figures in `why`, by name */
            readonly values: {
                readonly [key: string]: number | string;
            };
            /** @description What stands behind it, in English */
            readonly why: string;
        };
        /** @description What a wedge showed under a straightedge laid on the bed, where it lay. */
        readonly MeasuredGap: {
            /**
             * @description Where it stood open most; null: not told (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            /** @description One end of the straightedge (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description What stood open under it at the worst place (mm) */
            readonly gap: number;
            readonly id?: string | null;
            readonly passed_over?: boolean | null;
            /**
             * @description When it was measured
             * @default null
             */
            readonly taken_at?: string | null;
            /** @description The other end (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /** @description Cleavage membrane under an unbonded bed, from the roll. */
        readonly Membrane: {
            readonly lap?: number | null;
            readonly roll_length?: number | null;
            readonly roll_width?: number | null;
            readonly thickness?: number | null;
            readonly turned_up?: number | null;
        };
        /** @description How old the bed must be before something may happen on it. */
        readonly MilestoneNeed: {
            /**
             * @description What waits for it
             * @enum {unknown}
             */
            readonly milestone: "walk" | "tile" | "grout" | "light_traffic" | "heavy_traffic";
            /** @description Equivalent age needed, at the reference temperature (h) */
            readonly needs: number;
        };
        /**
         * MilestonePart
         * @description A changed need: hours of equivalent age before something may happen on the bed.
         */
        readonly MilestonePart: {
            /**
             * Milestone
             * @default null
             */
            readonly milestone?: string | null;
            /**
             * Needs
             * @default null
             */
            readonly needs?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description How far the taped walk ended from where it began, before it was spread over the walls. */
        readonly Misclosure: {
            /** @description Along x (mm) */
            readonly dx: number;
            /** @description Along y (mm) */
            readonly dy: number;
            /** @description Straight (mm) */
            readonly length: number;
            /** @description Length over perimeter */
            readonly ratio: number;
        };
        /** @description The mortar: parts by loose volume, and what the mixer takes. */
        readonly Mix: {
            readonly air?: number | null;
            readonly bag_mass?: number | null;
            /**
             * @description What the mixer or box takes, compacted; null for one bag a batch (m3)
             * @default null
             */
            readonly batch_volume?: number | null;
            readonly cement?: number | null;
            readonly lime?: number | null;
            readonly sand?: number | null;
            readonly sand_bulking?: number | null;
            readonly sand_moisture?: number | null;
            readonly waste?: number | null;
            readonly water_cement?: number | null;
        };
        /** @description What the mix makes, and how often it has to be made. */
        readonly MixAnswer: {
            /** @description Compacted mortar from one bag (m3) */
            readonly bag_yield: number;
            /** @description 90 % range of the bags, null where it was not asked for */
            readonly bags_range: readonly [
                number,
                number
            ] | null;
            /** @description What goes into the mixer each time */
            readonly batch: components["schemas"]["Batch"];
            /** @description How many, the last one not always full */
            readonly batches: number;
            /** @description Mass of fresh mortar (kg/m3) */
            readonly density: number;
            /** @description Volume mixed, waste included (m3) */
            readonly mixed_volume: number;
        };
        /** @description One batch from the mixer. */
        readonly MixedBatch: {
            /**
             * @description A place in the section, best the one that the plan gives: it tells which section is meant, whatever the numbers are now; null: the id does (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            readonly id?: string | null;
            /**
             * Format: date-time
             * @description When water went in
             */
            readonly mixed_at: string;
            /**
             * @description When the last of it was in place
             * @default null
             */
            readonly placed_at?: string | null;
            /**
             * @description The section it is for
             * @default null
             */
            readonly section?: string | null;
            readonly size?: number | null;
            /**
             * @description When what was left of it was thrown away
             * @default null
             */
            readonly thrown_at?: string | null;
        };
        /** @description The reading that would tell most now, taken both ways round: the level turned end for end. */
        readonly NextCheck: {
            /** @description Where its one end lies (mm) */
            readonly from: number;
            /** @description The rail to lay the level along, null for across */
            readonly rail: string | null;
            /** @description The two rails to bridge, null for along */
            readonly rails: readonly [
                string,
                string
            ] | null;
            /** @description Where its other end lies (mm) */
            readonly to: number;
        };
        /** @description A place where a reading is worth most. */
        readonly NextReading: {
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Share by which it narrows the volume's range, null where that is not known */
            readonly gain: number | null;
            /** @description Standard error of the surface there, null where it is not known (mm) */
            readonly sigma: number | null;
            /** @description `estimated_governs`: an estimated corner decides the height or a limit; `volume`: the volume is least certain for want of it; `high_spot`: the floor may be higher there than anything read */
            readonly why: string;
        };
        /** @description An edge of the bed with nothing beside it: it gets a form at bed height, or is cut back and keyed. */
        readonly OpenEdge: {
            /** @description Where it begins (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description Greatest bed thickness along it (mm) */
            readonly highest: number;
            /** @description E1, E2, ... */
            readonly id: string;
            /**
             * @description In a doorway; or where work stops: along a rail, at a joint, anywhere else
             * @enum {unknown}
             */
            readonly kind: "doorway" | "rail" | "joint" | "cut";
            /** @description How long it is (mm) */
            readonly length: number;
            /** @description Least bed thickness along it: the form's least height (mm) */
            readonly lowest: number;
            /** @description The doorway's id, null for another edge */
            readonly opening: string | null;
            /** @description Where it ends (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /** @description A doorway: part of a wall (0 runs from vertex 0 to 1) with the finished floor beyond it. */
        readonly Opening: {
            /**
             * @description Finished floor beyond, z (mm)
             * @default null
             */
            readonly adjoining_height?: number | null;
            /**
             * @description Underside of the door leaf, z, null where it is unknown (mm)
             * @default null
             */
            readonly door_bottom?: number | null;
            readonly exit?: boolean | null;
            /** @description Where it begins along the wall (mm) */
            readonly from: number;
            readonly id?: string | null;
            /** @description Where it ends along the wall (mm) */
            readonly to: number;
            /** @description Which wall, counted from 0 */
            readonly wall: number;
        };
        /**
         * OpeningPart
         * @description A doorway: `from` and `to` in mm along a wall.
         */
        readonly OpeningPart: {
            /**
             * Adjoining Height
             * @default null
             */
            readonly adjoining_height?: number | null;
            /**
             * Door Bottom
             * @default null
             */
            readonly door_bottom?: number | null;
            /**
             * Exit
             * @default null
             */
            readonly exit?: boolean | null;
            /**
             * From
             * @default null
             */
            readonly from?: number | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * To
             * @default null
             */
            readonly to?: number | null;
            /**
             * Wall
             * @default null
             */
            readonly wall?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description The order of several rooms. */
        readonly OrderAnswer: {
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description What to buy, in the order of the material */
            readonly materials: readonly components["schemas"]["OrderRow"][];
            /** @description Items in packages of several sizes: no one price fits, so they stay without one */
            readonly mixed_packages: readonly string[];
            /** @description What it costs */
            readonly quote: components["schemas"]["Quote"];
            /** @description What rounding all rooms together saves, before margin; null where it has no price */
            readonly saves: number | null;
        };
        /** @description One room of the order. */
        readonly OrderedRoom: {
            readonly labour_hours?: number | null;
            /**
             * @description Least and most hours (h)
             * @default null
             */
            readonly labour_hours_range?: readonly [
                number,
                number
            ] | null;
            /** @description Its plan's material */
            readonly materials: readonly components["schemas"]["OrderedRow"][];
            readonly name?: string | null;
        };
        /** @description A row of a plan's material, as far as an order needs it; the row's other keys are passed over. */
        readonly OrderedRow: {
            /**
             * @description What it is
             * @enum {unknown}
             */
            readonly item: "cement" | "lime" | "sand" | "water" | "membrane" | "reinforcement" | "perimeter_strip" | "bond_coat" | "tile";
            /**
             * @description Least and most loose volume (m3)
             * @default null
             */
            readonly loose_range?: readonly [
                number,
                number
            ] | null;
            /**
             * @description Loose volume; sand is priced by it (m3)
             * @default null
             */
            readonly loose_volume?: number | null;
            /**
             * @description What one package gives
             * @default null
             */
            readonly package_size?: number | null;
            /** @description How much, not rounded */
            readonly quantity: number;
            /**
             * @description Least and most
             * @default null
             */
            readonly quantity_range?: readonly [
                number,
                number
            ] | null;
        };
        /** @description What is asked: the material of several rooms, and what things cost. */
        readonly OrderQuestion: {
            readonly prices?: components["schemas"]["Prices"] | null;
            /** @description The rooms */
            readonly rooms: readonly components["schemas"]["OrderedRoom"][];
        };
        /** @description One thing to buy for all rooms; packages of different sizes stand in rows of their own. */
        readonly OrderRow: {
            /** @description What it is */
            readonly item: string;
            /** @description The rooms' ranges added up (m3) */
            readonly loose_range: readonly [
                number,
                number
            ] | null;
            /** @description Volume as measured loose (m3) */
            readonly loose_volume: number | null;
            /** @description What one package gives, in the quantity's unit */
            readonly package_size: number | null;
            /** @description Whole packages for all rooms together, null where it comes in none */
            readonly packages: number | null;
            /** @description Whole packages if every room were ordered alone */
            readonly packages_apart: number | null;
            /** @description Fewest and most whole packages */
            readonly packages_range: readonly [
                number,
                number
            ] | null;
            /** @description How much for all rooms, not rounded */
            readonly quantity: number;
            /** @description The rooms' ranges added up, wider than that of their sum */
            readonly quantity_range: readonly [
                number,
                number
            ] | null;
            /** @description Names of the rooms that need it, in their order */
            readonly rooms: readonly string[];
            /** @description The quantity's unit: kg, m or m2 */
            readonly unit: string;
        };
        /**
         * Origin
         * @description Where a change comes from that a device read out of a file: it was made by somebody else, or long ago.
         */
        readonly Origin: {
            /**
             * At
             * Format: date-time
             * @description When the edit was made, the device's clock corrected
             */
            readonly at: string;
            /**
             * Device Id
             * @description Where it was made; null where the file does not say
             */
            readonly device_id?: string | null;
            /** Device Name */
            readonly device_name?: string | null;
            /**
             * Knew
             * @description What its maker had seen of the record: of each device that had edited it, the last change known
             * @default []
             */
            readonly knew?: readonly string[];
            /**
             * Person
             * @description Who made it; null where the file does not say
             */
            readonly person?: string | null;
        };
        /** @description The room's figure: `vertices` or `walls`, and the areas inside it that get no bed. */
        readonly Outline: {
            readonly cutouts?: readonly (readonly (readonly [
                number,
                number
            ])[])[] | null;
            /**
             * @description Corners of a simple polygon, either way round (mm)
             * @default null
             */
            readonly vertices?: readonly (readonly [
                number,
                number
            ])[] | null;
            /**
             * @description Walls as taped, starting at the origin along +x
             * @default null
             */
            readonly walls?: readonly components["schemas"]["Wall"][] | null;
        };
        /** @description The room's figure, closed. */
        readonly OutlineAnswer: {
            /** @description Area of the bed (m2) */
            readonly area: number;
            /** @description Areas with no bed, clockwise (mm) */
            readonly cutouts: readonly (readonly (readonly [
                number,
                number
            ])[])[];
            /** @description What the tape missed by, spread over the walls */
            readonly misclosure: components["schemas"]["Misclosure"];
            /** @description Length of the walls, cutouts not counted (mm) */
            readonly perimeter: number;
            /** @description Corners in the order given, wall n from corner n to the next (mm) */
            readonly vertices: readonly (readonly [
                number,
                number
            ])[];
        };
        /**
         * OutlinePart
         * @description The room's figure, by corners or by walls, and the areas without a bed.
         */
        readonly OutlinePart: {
            /**
             * Cutouts
             * @default null
             */
            readonly cutouts?: readonly (readonly (readonly number[])[])[] | null;
            /**
             * Vertices
             * @default null
             */
            readonly vertices?: readonly (readonly number[])[] | null;
            /**
             * Walls
             * @default null
             */
            readonly walls?: readonly components["schemas"]["WallPart"][] | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description How fast it goes, stoppages taken out: moving rails and packing channels are part of it. */
        readonly Pace: {
            /** @description Working hours for a batch (h) */
            readonly hours_per_batch: number;
            /** @description Working hours for a cubic metre of bed (h/m3) */
            readonly hours_per_volume: number;
            /** @description How many sections it is reckoned from */
            readonly sections: number;
        };
        /** @description Tile between joints. */
        readonly Panel: {
            /** @description Small cutouts in it, clockwise (mm) */
            readonly holes: readonly (readonly (readonly [
                number,
                number
            ])[])[];
            /** @description Its longer side, along or across the longest wall (mm) */
            readonly length: number;
            /** @description A simple polygon, anticlockwise (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
            /** @description Its shorter side (mm) */
            readonly width: number;
        };
        /**
         * PeopleReply
         * @description Everybody, by name.
         */
        readonly PeopleReply: {
            /** People */
            readonly people: readonly components["schemas"]["KnownPerson"][];
        };
        /** @description The joint along every wall and cutout and round what stands in the bed. */
        readonly PerimeterJoint: {
            /** @description Length, doorways counted in (mm) */
            readonly length: number;
            /** @description Least width (mm) */
            readonly width: number;
        };
        /** @description Compressible strip along the walls and round what stands in the bed. */
        readonly PerimeterStrip: {
            readonly piece?: number | null;
            readonly waste?: number | null;
        };
        /**
         * PersonEdit
         * @description What changes about a person; what is left out stays.
         */
        readonly PersonEdit: {
            /** Name */
            readonly name?: string | null;
            /** Role */
            readonly role?: ("foreman" | "setter" | "viewer") | null;
        };
        /**
         * PhotoFields
         * @description A photo of a room, or of one reading in it. The picture travels apart, by its hash. Pixels and bytes.
         */
        readonly PhotoFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Entry Id
             * @description The line of the day book it belongs to
             * @default null
             */
            readonly entry_id?: string | null;
            /** Hash */
            readonly hash: string;
            /** Height */
            readonly height: number;
            /**
             * Media Type
             * @enum {string}
             */
            readonly media_type: "image/jpeg" | "image/png" | "image/webp";
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /**
             * Reading Id
             * @default null
             */
            readonly reading_id?: string | null;
            /** Room Id */
            readonly room_id: string;
            /** Size */
            readonly size: number;
            /**
             * Taken At
             * @default null
             */
            readonly taken_at?: string | null;
            /** Width */
            readonly width: number;
        };
        /**
         * PhotoReply
         * @description What is here of a photo, in bytes. The next part goes on from `received`.
         */
        readonly PhotoReply: {
            /**
             * Complete
             * @description All of it is here and was found good: it can be looked at
             */
            readonly complete: boolean;
            /** Received */
            readonly received: number;
            /**
             * Size
             * @description As the photo's record says
             */
            readonly size: number;
        };
        /** @description One section's mortar: when it was mixed, in place, cut off, and its channels packed. */
        readonly Placement: {
            /**
             * @description A place in the section, best the one that the plan gives: it tells which section is meant, whatever the numbers are now; null: the id does (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            /**
             * @description When the channels its rails left were filled and packed
             * @default null
             */
            readonly channels_at?: string | null;
            /**
             * @description When it was mixed
             * @default null
             */
            readonly mixed_at?: string | null;
            /**
             * @description When it was in place
             * @default null
             */
            readonly placed_at?: string | null;
            /**
             * @description When it was cut off with the straightedge
             * @default null
             */
            readonly screeded_at?: string | null;
            readonly section?: string | null;
        };
        /**
         * PlacementFields
         * @description One section's mortar: when it was mixed, in place, cut off, and its channels packed.
         */
        readonly PlacementFields: {
            /**
             * At
             * @description A place in the section: ids change with the rails, places do not
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Channels At
             * @default null
             */
            readonly channels_at?: string | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Mixed At
             * @default null
             */
            readonly mixed_at?: string | null;
            /**
             * Placed At
             * @default null
             */
            readonly placed_at?: string | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Screeded At
             * @default null
             */
            readonly screeded_at?: string | null;
            /**
             * Section
             * @default null
             */
            readonly section?: string | null;
        };
        /** @description One way to lay the points on the drawing: turned about the table's origin, then shifted. */
        readonly Placing: {
            /**
             * @description As they are, by their low left corner, or by two pairs
             * @enum {unknown}
             */
            readonly kind: "as_they_are" | "low_corner" | "pairs";
            /** @description By how much each of the two points misses its place, null for no pairs (mm) */
            readonly misfit: number | null;
            /** @description How many points then stand outside the room, null without a room */
            readonly outside: number | null;
            /** @description Anticlockwise (degree) */
            readonly rotation: number;
            /** @description Along x and y (mm) */
            readonly shift: readonly [
                number,
                number
            ];
        };
        /** @description Everything worked out for one room. */
        readonly Plan: {
            /** @description The bed */
            readonly bed: components["schemas"]["BedAnswer"];
            /** @description What can hurt a person or spoil the bed */
            readonly cautions: readonly components["schemas"]["Caution"][];
            /** @description What to raise or let down, the most first */
            readonly corrections: readonly components["schemas"]["Correction"][];
            /** @description Null where the covering does not mind moisture */
            readonly drying: components["schemas"]["Drying"] | null;
            /** @description Edges in doorways that get a form at bed height */
            readonly edges: readonly components["schemas"]["OpenEdge"][];
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description Where humidity and wind are known */
            readonly evaporation: readonly components["schemas"]["EvaporationRow"][];
            /** @description What stands behind a figure, by its path */
            readonly explanations: {
                readonly [key: string]: components["schemas"]["Explanation"];
            };
            /** @description Where to start setting, null without rails */
            readonly first_station: components["schemas"]["FirstStation"] | null;
            /** @description How flat the finished bed is; null until something of it was measured, and in a quick plan */
            readonly flatness: components["schemas"]["FlatnessAnswer"] | null;
            /** @description Places that no pair of rails serves */
            readonly hand_areas: readonly components["schemas"]["HandArea"][];
            /** @description Their share of the bed */
            readonly hand_share: number;
            /** @description Movement joints */
            readonly joints: components["schemas"]["JointsAnswer"];
            /** @description What the level that was used most is out by, + where it shows its `to` end too high; null if unknown (mm/m) */
            readonly level_error: number | null;
            /** @description Heights */
            readonly levels: components["schemas"]["LevelsAnswer"];
            /** @description What to buy or carry in */
            readonly materials: readonly components["schemas"]["Material"][];
            /** @description Batches and what the mix makes */
            readonly mix: components["schemas"]["MixAnswer"];
            /** @description Keys and parts of the document that were left out */
            readonly notices: readonly components["schemas"]["Problem"][];
            /** @description The room's figure */
            readonly outline: components["schemas"]["OutlineAnswer"];
            /** @description When the last section was placed, null where nothing is */
            readonly placed_at: string | null;
            /** @description What it costs */
            readonly quote: components["schemas"]["Quote"];
            /** @description Way the rails run, anticlockwise from +x (degree) */
            readonly rail_direction: number;
            /** @description Rails, from one side of the room to the other */
            readonly rails: readonly components["schemas"]["Rail"][];
            /** @description When the bed may be walked on, tiled, grouted, driven over */
            readonly readiness: readonly components["schemas"]["ReadinessRow"][];
            /** @description Pieces of the bed, in the order they are filled */
            readonly sections: readonly components["schemas"]["Section"][];
            /** @description The subfloor */
            readonly surface: components["schemas"]["SurfaceAnswer"];
            /** @description When tile can be set: on the fresh bed, or when it has hardened */
            readonly tile: components["schemas"]["TileWindow"] | null;
            /** @description How the rails lie, null while nothing was read on them */
            readonly truing: components["schemas"]["TruingAnswer"] | null;
            /** @description How long a batch can be worked */
            readonly working_time: components["schemas"]["WorkingTime"];
        };
        /** @description A plane top through given points: three, or more of one plane; through two it leans along them only. */
        readonly PlaneTop: {
            readonly kind?: "plane" | null;
            /** @description Points the top passes through (mm) */
            readonly through: readonly (readonly [
                number,
                number,
                number
            ])[];
        };
        /** @description What things cost, by the package they are sold in. */
        readonly Prices: {
            /**
             * @description A bag of bond coat
             * @default null
             */
            readonly bond_coat_bag?: number | null;
            /**
             * @description A bag of cement
             * @default null
             */
            readonly cement_bag?: number | null;
            readonly currency?: string | null;
            readonly labour?: components["schemas"]["Labour"] | null;
            /**
             * @description A bag of lime
             * @default null
             */
            readonly lime_bag?: number | null;
            readonly margin?: number | null;
            /**
             * @description A roll of membrane
             * @default null
             */
            readonly membrane_roll?: number | null;
            /**
             * @description A piece of perimeter strip
             * @default null
             */
            readonly perimeter_strip_piece?: number | null;
            /**
             * @description A sheet of reinforcement
             * @default null
             */
            readonly reinforcement_sheet?: number | null;
            /**
             * @description A cubic metre of sand, damp and loose
             * @default null
             */
            readonly sand?: number | null;
            /**
             * @description A box of tile
             * @default null
             */
            readonly tile_box?: number | null;
        };
        /**
         * PricesFields
         * @description What things cost the company, by the package; an hour of labour, and the margin. For foremen alone.
         */
        readonly PricesFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Prices.Bond Coat Bag
             * @default null
             */
            readonly "prices.bond_coat_bag"?: number | null;
            /**
             * Prices.Cement Bag
             * @default null
             */
            readonly "prices.cement_bag"?: number | null;
            /**
             * Prices.Currency
             * @default null
             */
            readonly "prices.currency"?: string | null;
            /**
             * Prices.Labour.Chipping
             * @default null
             */
            readonly "prices.labour.chipping"?: number | null;
            /**
             * Prices.Labour.Chipping Depth
             * @default null
             */
            readonly "prices.labour.chipping_depth"?: number | null;
            /**
             * Prices.Labour.Hour
             * @default null
             */
            readonly "prices.labour.hour"?: number | null;
            /**
             * Prices.Labour.Per Area
             * @default null
             */
            readonly "prices.labour.per_area"?: number | null;
            /**
             * Prices.Labour.Per Volume
             * @default null
             */
            readonly "prices.labour.per_volume"?: number | null;
            /**
             * Prices.Labour.Set Up
             * @default null
             */
            readonly "prices.labour.set_up"?: number | null;
            /**
             * Prices.Lime Bag
             * @default null
             */
            readonly "prices.lime_bag"?: number | null;
            /**
             * Prices.Margin
             * @default null
             */
            readonly "prices.margin"?: number | null;
            /**
             * Prices.Membrane Roll
             * @default null
             */
            readonly "prices.membrane_roll"?: number | null;
            /**
             * Prices.Perimeter Strip Piece
             * @default null
             */
            readonly "prices.perimeter_strip_piece"?: number | null;
            /**
             * Prices.Reinforcement Sheet
             * @default null
             */
            readonly "prices.reinforcement_sheet"?: number | null;
            /**
             * Prices.Sand
             * @description A cubic metre, damp and loose
             * @default null
             */
            readonly "prices.sand"?: number | null;
            /**
             * Prices.Tile Box
             * @default null
             */
            readonly "prices.tile_box"?: number | null;
        };
        /** @description One thing wrong with a document: `path` says where (`readings[3].down`), `code` what, `message` in English. */
        readonly Problem: {
            /** @description What is wrong, from a closed set */
            readonly code: string;
            /** @description The same in English */
            readonly message: string;
            /** @description Where in the document */
            readonly path: string;
            /** @description The figures in the message, by name */
            readonly values: {
                readonly [key: string]: number | string;
            };
        };
        /**
         * ProblemItem
         * @description One thing wrong: where, what, and the numbers that belong to it (lengths in mm).
         */
        readonly ProblemItem: {
            /** Code */
            readonly code: string;
            /** Message */
            readonly message: string;
            /** Path */
            readonly path: string;
            /** Values */
            readonly values?: {
                readonly [key: string]: number | string;
            };
        };
        /**
         * ProblemReply
         * @description An error, in the same shape everywhere.
         */
        readonly ProblemReply: {
            readonly code: components["schemas"]["Code"];
            /**
             * Detail
             * @default null
             */
            readonly detail?: string | null;
            /**
             * Expected
             * @description With `gap` and `photo_gap`: the number the service waits for
             * @default null
             */
            readonly expected?: number | null;
            /**
             * Problems
             * @default null
             */
            readonly problems?: readonly components["schemas"]["ProblemItem"][] | null;
            /**
             * Retry After
             * @description With `too_many_tries` and `busy`: seconds to wait
             * @default null
             */
            readonly retry_after?: number | null;
            /** Status */
            readonly status: number;
            /** Title */
            readonly title: string;
            /** Type */
            readonly type: string;
        };
        /** @description The section: unbroken runs inside the room, with gaps outside it and over cutouts. */
        readonly ProfileAnswer: {
            /** @description Length of the whole line (mm) */
            readonly length: number;
            /** @description Each at least two points, in the line's order */
            readonly runs: readonly (readonly components["schemas"]["ProfilePoint"][])[];
        };
        /** @description A place where the section bends, begins or ends; between two of them everything is straight. */
        readonly ProfilePoint: {
            /** @description From the beginning of the line (mm) */
            readonly along: number;
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description True where the subfloor beside it leans on a corner that was not read */
            readonly estimated: boolean;
            /** @description Height of the subfloor, z (mm) */
            readonly subfloor: number;
            /** @description Top less subfloor; negative where there is no bed (mm) */
            readonly thickness: number;
            /** @description Height of the top of bed, z (mm) */
            readonly top: number;
        };
        /** @description A room and the line to cut it along. */
        readonly ProfileQuestion: {
            /** @description The room document */
            readonly document: components["schemas"]["Document"];
            /** @description Where the line begins (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description Where it ends (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /**
         * PulledRecord
         * @description A record as it stands; `sequence` is that of its newest change.
         */
        readonly PulledRecord: {
            /**
             * Changed At
             * Format: date-time
             */
            readonly changed_at: string;
            /** Changed By */
            readonly changed_by: string;
            /**
             * Conflicts
             * @description By field: what lost against the value that stands, until somebody who saw both decides
             */
            readonly conflicts: {
                readonly [key: string]: readonly components["schemas"]["Conflict"][];
            };
            /** Created By */
            readonly created_by: string;
            /** Fields */
            readonly fields: {
                readonly [key: string]: components["schemas"]["JsonValue"];
            };
            /** Id */
            readonly id: string;
            /**
             * Kind
             * @enum {string}
             */
            readonly kind: "job" | "room" | "reading" | "placement" | "batch" | "station" | "rail_check" | "entry" | "climate" | "photo" | "alternative" | "gap" | "height_line" | "temperature_log" | "forecast_day" | "sign_off" | "prices" | "supplies";
            /** Sequence */
            readonly sequence: number;
            /**
             * Times
             * @description By field: when it was set, where that was before `changed_at`; every other one was set then. A service of an earlier version does not tell
             */
            readonly times?: {
                readonly [key: string]: string;
            };
        };
        /**
         * PullReply
         * @description One page of what changed after a number. Ask again after `next` while `more` is true.
         */
        readonly PullReply: {
            /** Database */
            readonly database: string;
            /** Latest */
            readonly latest: number;
            /** More */
            readonly more: boolean;
            /** Next */
            readonly next: number;
            /**
             * Protocol
             * @default 2
             */
            readonly protocol?: number;
            /** Records */
            readonly records: readonly components["schemas"]["PulledRecord"][];
            /**
             * Server Time
             * Format: date-time
             */
            readonly server_time: string;
            /**
             * View
             * @description The jobs this person sees. Where it differs from the one asked for, this page is the first of a snapshot: at its end, drop every stored record that did not come with it
             */
            readonly view: number;
        };
        /**
         * PushReply
         * @description Everything up to here is stored for good.
         */
        readonly PushReply: {
            /** Database */
            readonly database: string;
            /** Latest */
            readonly latest: number;
            /** Results */
            readonly results: readonly components["schemas"]["PushResult"][];
            /**
             * Server Time
             * Format: date-time
             */
            readonly server_time: string;
        };
        /**
         * PushRequest
         * @description Changes in the order of their numbers, and what the device's clock says now.
         */
        readonly PushRequest: {
            /** Changes */
            readonly changes: readonly components["schemas"]["Change"][];
            /**
             * Device Time
             * Format: date-time
             */
            readonly device_time: string;
            /** Protocol */
            readonly protocol: number;
        };
        /**
         * PushResult
         * @description What became of one change. `sequence` is the service's number, null where it was refused.
         */
        readonly PushResult: {
            /** Change Id */
            readonly change_id: string;
            /** Message */
            readonly message?: string | null;
            /** Number */
            readonly number: number;
            /**
             * Outcome
             * @enum {string}
             */
            readonly outcome: "applied" | "already_applied" | "refused";
            readonly reason?: components["schemas"]["Reason"] | null;
            /** Sequence */
            readonly sequence?: number | null;
        };
        /** @description What it costs. Sums are null where something in them has no price; nothing is rounded. */
        readonly Quote: {
            /** @description Code or sign of the currency */
            readonly currency: string;
            /** @description What the hours cost */
            readonly labour: number | null;
            /** @description Hours of one person (h) */
            readonly labour_hours: number;
            /** @description Least and most hours (h) */
            readonly labour_hours_range: readonly [
                number,
                number
            ] | null;
            /** @description Everything bought, in the order of the material */
            readonly lines: readonly components["schemas"]["QuoteLine"][];
            /** @description What is added to material and labour */
            readonly margin: number | null;
            /** @description All lines */
            readonly materials: number | null;
            /** @description Everything */
            readonly total: number | null;
            /** @description Least and most, where it follows how well the floor was read */
            readonly total_range: readonly [
                number,
                number
            ] | null;
            /** @description Items without a price, and `labour` where the hour has none */
            readonly unpriced: readonly string[];
        };
        /** @description One line of a quote. */
        readonly QuoteLine: {
            /** @description Which price it goes by: a field of `prices` */
            readonly code: string;
            /** @description What it costs, not rounded */
            readonly cost: number | null;
            /** @description Least and most, where it follows how well the floor was read */
            readonly cost_range: readonly [
                number,
                number
            ] | null;
            /** @description Price of one, null where nobody said */
            readonly each: number | null;
            /** @description What is bought */
            readonly item: string;
            /** @description Whole packages, null for sand */
            readonly packages: number | null;
            /** @description What the price is multiplied by: packages, or m³ of loose sand */
            readonly quantity: number;
            /** @description `package` or `m3` */
            readonly unit: string;
        };
        /** @description One rail: a straight line of strips whose top edges lie in the top of bed. */
        readonly Rail: {
            /** @description Its beginning (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description A letter from one side to the other, a number where the line is interrupted */
            readonly id: string;
            /** @description Mortar in its ramps, part of the bed's volume (m3) */
            readonly ramp_volume: number;
            /** @description The strips' lies, first to last */
            readonly settings: readonly components["schemas"]["Setting"][];
            /** @description From its beginning to its end */
            readonly stations: readonly components["schemas"]["Station"][];
            /** @description The strip it is made of; where lengths differ, the longest */
            readonly strip: components["schemas"]["LaidStrip"];
            /** @description Its end (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /**
         * RailCheckFields
         * @description What a level showed on one rail, or across two (`rail` and `rail_to`). mm, + where the `to` end is high.
         */
        readonly RailCheckFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * From
             * @default null
             */
            readonly from?: number | null;
            /**
             * Length
             * @default null
             */
            readonly length?: number | null;
            /**
             * Level
             * @default null
             */
            readonly level?: string | null;
            /** Off */
            readonly off: number;
            /** Rail */
            readonly rail: string;
            /**
             * Rail To
             * @default null
             */
            readonly rail_to?: string | null;
            /**
             * Reversed Off
             * @default null
             */
            readonly reversed_off?: number | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Taken At
             * @default null
             */
            readonly taken_at?: string | null;
            /**
             * To
             * @default null
             */
            readonly to?: number | null;
            /**
             * Typed
             * @default null
             */
            readonly typed?: string | {
                readonly [key: string]: string;
            } | null;
        };
        /** @description How rails are laid: the tools at hand and the habits. */
        readonly RailDesign: {
            readonly bearing?: number | null;
            readonly direction?: (number | "auto") | null;
            readonly inset?: number | null;
            /**
             * @description The rails as a person placed them, side by side; null for the ones proposed
             * @default null
             */
            readonly lines?: readonly components["schemas"]["RailLine"][] | null;
            readonly overlap?: number | null;
            readonly station_spacing?: number | null;
            readonly straightedge?: number | null;
            readonly straightedges?: readonly number[] | null;
            readonly strip?: components["schemas"]["Strip"] | null;
            readonly strips?: readonly components["schemas"]["StripsOnHand"][] | null;
            readonly tolerance?: number | null;
            readonly wood?: boolean | null;
        };
        /**
         * @description How one rail lies against the top of bed where its strip lies now, as far as the readings tell.
         *
         *         No level tells how high all rails lie together: they are taken to lie, on the whole, as they were set.
         */
        readonly RailError: {
            /** @description How many readings tell of it */
            readonly checks: number;
            /** @description How much its beginning will stand too high once raised as told, to 1/32 in (mm) */
            readonly from_after: number;
            /** @description How much its beginning stands too high (mm) */
            readonly from_off: number;
            /** @description Which lie of its strip, by its order; 1 for a rail of one */
            readonly lie: number;
            /** @description The rail's id */
            readonly rail: string;
            /** @description Standard error of the worse end (mm) */
            readonly sigma: number;
            /** @description How much its end will (mm) */
            readonly to_after: number;
            /** @description How much its end stands too high (mm) */
            readonly to_off: number;
        };
        /** @description A rail's line as a person placed it. */
        readonly RailLine: {
            /** @description Its beginning (mm) */
            readonly from: readonly [
                number,
                number
            ];
            readonly id?: string | null;
            /** @description Its end (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /**
         * RailLinePart
         * @description A rail's line as a person placed it.
         */
        readonly RailLinePart: {
            /**
             * From
             * @default null
             */
            readonly from?: readonly number[] | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * To
             * @default null
             */
            readonly to?: readonly number[] | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description One reading's height. */
        readonly ReadHeight: {
            /** @description Where, null for a mark (mm) */
            readonly at: readonly [
                number,
                number
            ] | null;
            /** @description The instrument's error that was taken off the reading (mm) */
            readonly correction: number;
            /** @description The reading's id */
            readonly reading: string;
            /** @description Read less adjusted, null where nothing checks the reading (mm) */
            readonly residual: number | null;
            /** @description Standard error of the height, null without a height (mm) */
            readonly sigma: number | null;
            /** @description Residual over its own standard error as the instrument's foretells it, null where nothing checks it */
            readonly standardised: number | null;
            /** @description Height above the benchmark, null where nothing ties the set-up to it (mm) */
            readonly z: number | null;
        };
        /** @description One milestone: when, and on what grounds. */
        readonly ReadinessRow: {
            /** @description Hours after placing; null where it is never met (h) */
            readonly after_h: number | null;
            /** @description When the need is met; null where nothing is placed or it is never met */
            readonly at: string | null;
            /** @description What the need rests on, in English */
            readonly basis: string;
            /** @description Code of `basis`, from a closed set */
            readonly code: string;
            /** @description The early end of the window: from here on somebody may try it */
            readonly early: string | null;
            /** @description Hours after placing, early; null where it is never met (h) */
            readonly early_after_h: number | null;
            /** @description Equivalent age at the last measured moment (h) */
            readonly equivalent_age: number;
            /** @description Temperature-time factor at the last measured moment; null unless it is told by that (Cel.h) */
            readonly factor: number | null;
            /** @description True where it rests on forecast or assumed temperatures */
            readonly forecast: boolean;
            /** @description The late end of the window: by here it should be ready */
            readonly late: string | null;
            /** @description Hours after placing, late; null where it is never met (h) */
            readonly late_after_h: number | null;
            /**
             * @description Which maturity method it is told by
             * @enum {unknown}
             */
            readonly method: "equivalent_age" | "temperature_time";
            /**
             * @description What waits
             * @enum {unknown}
             */
            readonly milestone: "walk" | "tile" | "grout" | "light_traffic" | "heavy_traffic";
            /** @description Equivalent age needed, at the reference temperature (h) */
            readonly needs: number;
            /** @description Temperature-time factor needed; null unless it is told by that (Cel.h) */
            readonly needs_factor: number | null;
            /** @description Why there is no moment, in English */
            readonly reason: string | null;
            /** @description Code of `reason`, from a closed set */
            readonly reason_code: string | null;
            /** @description Who looked and let it pass, null while nobody did */
            readonly ticked: components["schemas"]["Ticked"] | null;
            /** @description The figures in `basis`, by name */
            readonly values: {
                readonly [key: string]: number | string;
            };
        };
        /** @description How far below the set-up's level line a place lies: the larger number is the lower spot. */
        readonly Reading: {
            readonly as_typed?: string | null;
            /**
             * @description Where the rod stood (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            /** @description Below the level line (mm) */
            readonly down: number;
            readonly id?: string | null;
            /**
             * @description The mark the rod stood on, in place of `at`
             * @default null
             */
            readonly mark?: string | null;
            readonly setup?: string | null;
            /**
             * @description Length of the sight, where neither place tells it (mm)
             * @default null
             */
            readonly sight?: number | null;
            readonly stage?: ("subfloor" | "bed") | null;
            /**
             * @description When it was read
             * @default null
             */
            readonly taken_at?: string | null;
        };
        /**
         * ReadingFields
         * @description One rod reading. Never edited: a correction is a new reading that supersedes it.
         */
        readonly ReadingFields: {
            /**
             * At
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /** Down */
            readonly down: number;
            /**
             * Mark
             * @default null
             */
            readonly mark?: string | null;
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /** Room Id */
            readonly room_id: string;
            /**
             * Setup
             * @default null
             */
            readonly setup?: string | null;
            /**
             * Sight
             * @default null
             */
            readonly sight?: number | null;
            /**
             * Stage
             * @default null
             */
            readonly stage?: ("subfloor" | "bed") | null;
            /**
             * Supersedes
             * @default null
             */
            readonly supersedes?: string | null;
            /**
             * Taken At
             * @default null
             */
            readonly taken_at?: string | null;
            /**
             * Typed
             * @default null
             */
            readonly typed?: string | {
                readonly [key: string]: string;
            } | null;
        };
        /**
         * Reason
         * @description The closed set of reasons.
         * @enum {string}
         */
        readonly Reason: "unknown_kind" | "unknown_field" | "bad_id" | "bad_value" | "missing_field" | "unknown_parent" | "reading_is_final" | "sign_off_is_final" | "change_id_taken" | "came_without" | "nothing_changed" | "parent_is_final" | "not_assigned" | "foreman_only";
        /** @description Sheets of wire fabric or mesh in the middle of an unbonded bed. */
        readonly Reinforcement: {
            readonly lap?: number | null;
            readonly sheet_length?: number | null;
            readonly sheet_width?: number | null;
            readonly waste?: number | null;
        };
        /** @description One requirement that governs the top: were it relieved, the bed would take less mortar. */
        readonly Requirement: {
            /** @description Where it governs, null where it is of the whole room (mm) */
            readonly at: readonly [
                number,
                number
            ] | null;
            /** @description The doorway or fixture concerned, if it is one */
            readonly id: string | null;
            /** @description `minimum_thickness`, `maximum_thickness`, `held_low`, `held_high`, `largest_fall`, `given_height`, `drain_height` or `least_fall` */
            readonly kind: string;
            /** @description What is asked for: mm, or a ratio for falls */
            readonly limit: number;
            /** @description Where in the document it is asked for */
            readonly path: string;
            /** @description Mortar saved by each mm of relief (by each 1/1000 for falls), as long as nothing else comes to govern (m3) */
            readonly saves: number;
        };
        /**
         * RoomFields
         * @description A room and every choice made for it; its supplies where they differ from the company's.
         */
        readonly RoomFields: {
            /**
             * Adjustment.Datum
             * @default null
             */
            readonly "adjustment.datum"?: ("fixed" | "free") | null;
            /**
             * Bed.Build
             * @default null
             */
            readonly "bed.build"?: ("unbonded" | "bonded") | null;
            /**
             * Bed.Chip Depth
             * @default null
             */
            readonly "bed.chip_depth"?: number | null;
            /**
             * Bed.Covering.Bond Thickness
             * @default null
             */
            readonly "bed.covering.bond_thickness"?: number | null;
            /**
             * Bed.Covering.Longest Edge
             * @default null
             */
            readonly "bed.covering.longest_edge"?: number | null;
            /**
             * Bed.Covering.Tile Thickness
             * @default null
             */
            readonly "bed.covering.tile_thickness"?: number | null;
            /**
             * Bed.Maximum Thickness
             * @default null
             */
            readonly "bed.maximum_thickness"?: number | null;
            /**
             * Bed.Minimum Thickness
             * @default null
             */
            readonly "bed.minimum_thickness"?: number | null;
            /** @default null */
            readonly "bed.top"?: components["schemas"]["TopPart"] | null;
            /**
             * Curing.Activation
             * @default null
             */
            readonly "curing.activation"?: number | null;
            /**
             * Curing.Assumed
             * @default null
             */
            readonly "curing.assumed"?: number | null;
            /**
             * Curing.Datum
             * @default null
             */
            readonly "curing.datum"?: number | null;
            /**
             * Curing.Early
             * @default null
             */
            readonly "curing.early"?: number | null;
            /**
             * Curing.Follows
             * @default null
             */
            readonly "curing.follows"?: number | null;
            /**
             * Curing.Forecast Doubt
             * @default null
             */
            readonly "curing.forecast_doubt"?: number | null;
            /**
             * Curing.Fresh Window
             * @default null
             */
            readonly "curing.fresh_window"?: number | null;
            /**
             * Curing.Late
             * @default null
             */
            readonly "curing.late"?: number | null;
            /**
             * Curing.Method
             * @default null
             */
            readonly "curing.method"?: ("equivalent_age" | "temperature_time") | null;
            /**
             * Curing.Milestones
             * @default null
             */
            readonly "curing.milestones"?: readonly components["schemas"]["MilestonePart"][] | null;
            /**
             * Curing.Moisture Sensitive
             * @default null
             */
            readonly "curing.moisture_sensitive"?: boolean | null;
            /**
             * Curing.Reference
             * @default null
             */
            readonly "curing.reference"?: number | null;
            /**
             * Curing.Tile When
             * @default null
             */
            readonly "curing.tile_when"?: ("same_day" | "overnight") | null;
            /**
             * Curing.Working Time
             * @default null
             */
            readonly "curing.working_time"?: number | null;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Filling.Day Ends
             * @default null
             */
            readonly "filling.day_ends"?: string | null;
            /**
             * Filling.Mixer
             * @default null
             */
            readonly "filling.mixer"?: readonly number[] | null;
            /**
             * Fixtures
             * @default null
             */
            readonly fixtures?: readonly components["schemas"]["FixturePart"][] | null;
            /**
             * Flatness.Own
             * @description The company's own limits, one a length of straightedge
             * @default null
             */
            readonly "flatness.own"?: readonly components["schemas"]["GapLimitPart"][] | null;
            /**
             * Flatness.Standard
             * @default null
             */
            readonly "flatness.standard"?: ("ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4" | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own") | null;
            /**
             * Instrument Checks
             * @default null
             */
            readonly instrument_checks?: readonly components["schemas"]["InstrumentCheckPart"][] | null;
            /**
             * Instruments
             * @default null
             */
            readonly instruments?: readonly components["schemas"]["InstrumentPart"][] | null;
            /** Job Id */
            readonly job_id: string;
            /**
             * Joints.Expansion
             * @default null
             */
            readonly "joints.expansion"?: number | null;
            /**
             * Joints.Exposure
             * @default null
             */
            readonly "joints.exposure"?: ("indoors" | "sun_or_wet" | "outdoors") | null;
            /**
             * Joints.Sealant Movement
             * @default null
             */
            readonly "joints.sealant_movement"?: number | null;
            /**
             * Joints.Slab Joints
             * @description Joints of the slab below, each from one end to the other
             * @default null
             */
            readonly "joints.slab_joints"?: readonly (readonly (readonly number[])[])[] | null;
            /**
             * Joints.Spacing
             * @default null
             */
            readonly "joints.spacing"?: number | null;
            /**
             * Joints.Temperature Range
             * @default null
             */
            readonly "joints.temperature_range"?: number | null;
            /**
             * Levels.Skipped
             * @description Proposed places that are not read, as somebody decided
             * @default null
             */
            readonly "levels.skipped"?: readonly (readonly number[])[] | null;
            /**
             * Marks
             * @default null
             */
            readonly marks?: readonly components["schemas"]["MarkPart"][] | null;
            /**
             * Mix.Air
             * @default null
             */
            readonly "mix.air"?: number | null;
            /**
             * Mix.Bag Mass
             * @default null
             */
            readonly "mix.bag_mass"?: number | null;
            /**
             * Mix.Batch Volume
             * @default null
             */
            readonly "mix.batch_volume"?: number | null;
            /**
             * Mix.Cement
             * @default null
             */
            readonly "mix.cement"?: number | null;
            /**
             * Mix.Lime
             * @default null
             */
            readonly "mix.lime"?: number | null;
            /**
             * Mix.Sand
             * @default null
             */
            readonly "mix.sand"?: number | null;
            /**
             * Mix.Sand Bulking
             * @default null
             */
            readonly "mix.sand_bulking"?: number | null;
            /**
             * Mix.Sand Moisture
             * @default null
             */
            readonly "mix.sand_moisture"?: number | null;
            /**
             * Mix.Waste
             * @default null
             */
            readonly "mix.waste"?: number | null;
            /**
             * Mix.Water Cement
             * @default null
             */
            readonly "mix.water_cement"?: number | null;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /**
             * Openings
             * @default null
             */
            readonly openings?: readonly components["schemas"]["OpeningPart"][] | null;
            /** @default null */
            readonly outline?: components["schemas"]["OutlinePart"] | null;
            /**
             * Rails.Bearing
             * @default null
             */
            readonly "rails.bearing"?: number | null;
            /**
             * Rails.Direction
             * @default null
             */
            readonly "rails.direction"?: number | "auto" | null;
            /**
             * Rails.Inset
             * @default null
             */
            readonly "rails.inset"?: number | null;
            /**
             * Rails.Lines
             * @description The rails as a person placed them; null for the ones proposed
             * @default null
             */
            readonly "rails.lines"?: readonly components["schemas"]["RailLinePart"][] | null;
            /**
             * Rails.Overlap
             * @default null
             */
            readonly "rails.overlap"?: number | null;
            /**
             * Rails.Station Spacing
             * @default null
             */
            readonly "rails.station_spacing"?: number | null;
            /**
             * Rails.Straightedge
             * @default null
             */
            readonly "rails.straightedge"?: number | null;
            /**
             * Rails.Straightedges
             * @description Further straightedges on hand, by length
             * @default null
             */
            readonly "rails.straightedges"?: readonly number[] | null;
            /**
             * Rails.Strip.Length
             * @default null
             */
            readonly "rails.strip.length"?: number | null;
            /**
             * Rails.Strip.Thickness
             * @default null
             */
            readonly "rails.strip.thickness"?: number | null;
            /**
             * Rails.Strip.Width
             * @default null
             */
            readonly "rails.strip.width"?: number | null;
            /**
             * Rails.Strips
             * @description Strips on hand, of several lengths and thicknesses
             * @default null
             */
            readonly "rails.strips"?: readonly components["schemas"]["StripsPart"][] | null;
            /**
             * Rails.Tolerance
             * @default null
             */
            readonly "rails.tolerance"?: number | null;
            /**
             * Rails.Wood
             * @default null
             */
            readonly "rails.wood"?: boolean | null;
            /**
             * Setups
             * @default null
             */
            readonly setups?: readonly components["schemas"]["SetupPart"][] | null;
            /**
             * Supplies.Bond Coat.Bag Mass
             * @default null
             */
            readonly "supplies.bond_coat.bag_mass"?: number | null;
            /**
             * Supplies.Bond Coat.Density
             * @default null
             */
            readonly "supplies.bond_coat.density"?: number | null;
            /**
             * Supplies.Bond Coat.Waste
             * @default null
             */
            readonly "supplies.bond_coat.waste"?: number | null;
            /**
             * Supplies.Membrane.Lap
             * @default null
             */
            readonly "supplies.membrane.lap"?: number | null;
            /**
             * Supplies.Membrane.Roll Length
             * @default null
             */
            readonly "supplies.membrane.roll_length"?: number | null;
            /**
             * Supplies.Membrane.Roll Width
             * @default null
             */
            readonly "supplies.membrane.roll_width"?: number | null;
            /**
             * Supplies.Membrane.Thickness
             * @default null
             */
            readonly "supplies.membrane.thickness"?: number | null;
            /**
             * Supplies.Membrane.Turned Up
             * @default null
             */
            readonly "supplies.membrane.turned_up"?: number | null;
            /**
             * Supplies.Perimeter Strip.Piece
             * @default null
             */
            readonly "supplies.perimeter_strip.piece"?: number | null;
            /**
             * Supplies.Perimeter Strip.Waste
             * @default null
             */
            readonly "supplies.perimeter_strip.waste"?: number | null;
            /**
             * Supplies.Reinforcement.Lap
             * @default null
             */
            readonly "supplies.reinforcement.lap"?: number | null;
            /**
             * Supplies.Reinforcement.Sheet Length
             * @default null
             */
            readonly "supplies.reinforcement.sheet_length"?: number | null;
            /**
             * Supplies.Reinforcement.Sheet Width
             * @default null
             */
            readonly "supplies.reinforcement.sheet_width"?: number | null;
            /**
             * Supplies.Reinforcement.Waste
             * @default null
             */
            readonly "supplies.reinforcement.waste"?: number | null;
            /**
             * Supplies.Tile.Box Area
             * @default null
             */
            readonly "supplies.tile.box_area"?: number | null;
            /**
             * Supplies.Tile.Waste
             * @default null
             */
            readonly "supplies.tile.waste"?: number | null;
            /**
             * Supplies.Tile.Width
             * @default null
             */
            readonly "supplies.tile.width"?: number | null;
            /**
             * Typed
             * @default null
             */
            readonly typed?: {
                readonly [key: string]: string;
            } | null;
        };
        /**
         * ScanFlatness
         * @description How flat the scanned bed is, from all points rather than from the readings made of them.
         */
        readonly ScanFlatness: {
            /**
             * Checks
             * @description The long straightedge first
             */
            readonly checks: readonly components["schemas"]["FlatCheck"][];
            /** @description Null where no line is long enough */
            readonly f_numbers: components["schemas"]["FlatNumbers"] | null;
            /**
             * Standard
             * @description Whose limits hold
             * @enum {string}
             */
            readonly standard: "ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4" | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own";
            /**
             * Verdict
             * @description The worst of the checks that decide; null where none does
             */
            readonly verdict: ("within" | "beyond" | "too_noisy" | "too_sparse") | null;
        };
        /**
         * ScanItem
         * @description What is wrong with a scan; `path` is `line 17` or `point 17` where there is such a place.
         */
        readonly ScanItem: {
            /**
             * Code
             * @enum {string}
             */
            readonly code: "scan_empty" | "scan_packed" | "scan_not_text" | "scan_header" | "scan_no_places" | "scan_short" | "scan_long" | "scan_not_a_number" | "scan_few_columns" | "scan_long_line" | "scan_many_points" | "scan_points_one" | "scan_no_floor";
            /** Message */
            readonly message: string;
            /** Path */
            readonly path: string;
            /** Values */
            readonly values?: {
                readonly [key: string]: number | string;
            };
        };
        /**
         * ScanProgress
         * @description How far it has come. The upload itself is the browser's to show; `waiting` is for the scan before this one.
         */
        readonly ScanProgress: {
            /**
             * Done
             * @description Of this stage
             */
            readonly done: number;
            /**
             * Stage
             * @enum {string}
             */
            readonly stage: "waiting" | "reading" | "placing" | "reducing";
        };
        /**
         * ScanReading
         * @description One reading that stands for many points: their height where they are densest, strays left out.
         */
        readonly ScanReading: {
            /**
             * At
             * @description In the room, mm
             */
            readonly at: readonly number[];
            /**
             * Points
             * @description How many points stand behind it
             */
            readonly points: number;
            /**
             * Sigma
             * @description Standard error from the scatter of the points alone, mm
             */
            readonly sigma: number;
            /**
             * Z
             * @description Height as the scan tells it, mm; its zero is the scan's own
             */
            readonly z: number;
        };
        /**
         * ScanReply
         * @description The clean set of readings, row by row from the low-left corner, the same whatever the order of the points.
         */
        readonly ScanReply: {
            /**
             * @description Of a scan of the finished bed; null for a subfloor
             * @default null
             */
            readonly flatness?: components["schemas"]["ScanFlatness"] | null;
            /** Readings */
            readonly readings: readonly components["schemas"]["ScanReading"][];
            readonly report: components["schemas"]["ScanReport"];
        };
        /**
         * ScanReport
         * @description What became of the points, and how the scan was understood. Lengths are mm, areas m², angles degrees.
         */
        readonly ScanReport: {
            /**
             * Above
             * @description Points too far above the floor: ceiling, furniture, upper walls
             */
            readonly above: number;
            /**
             * Below
             * @description Points too far below the floor: reflections, stairs
             */
            readonly below: number;
            /**
             * Cell
             * @description Length of a cell's side
             */
            readonly cell: number;
            /**
             * Cells
             * @description Cells that the room was divided into
             */
            readonly cells: number;
            /**
             * Empty
             * @description The middles of those cells: where to read by hand
             */
            readonly empty: readonly (readonly number[])[];
            /**
             * Empty Area
             * @description Area of the room in those cells
             */
            readonly empty_area: number;
            /**
             * Empty Cells
             * @description Cells without a reading
             */
            readonly empty_cells: number;
            /**
             * Noise
             * @description Standard deviation of a single point about the floor
             */
            readonly noise: number;
            /**
             * Outside
             * @description Points outside the outline or in a cutout
             */
            readonly outside: number;
            /**
             * Points
             * @description In the file
             */
            readonly points: number;
            /**
             * Room Size
             * @description Width and depth of the outline
             */
            readonly room_size: readonly number[];
            /**
             * Scan Size
             * @description Width and depth of the scan's bulk, in that unit taken to mm
             */
            readonly scan_size: readonly number[];
            /**
             * Scattered
             * @description Points near the floor that agree with no surface: legs, lower walls, strays
             */
            readonly scattered: number;
            /**
             * Shift
             * @description What was added to the scan's places, after the turn
             */
            readonly shift: readonly number[];
            /**
             * Spacing
             * @description Mean distance from point to point
             */
            readonly spacing: number;
            /**
             * Split Cells
             * @description Cells with more than one reading, for the floor steps up or down in them
             */
            readonly split_cells: number;
            /**
             * Stage
             * @description What was scanned: every reading is of it
             * @enum {string}
             */
            readonly stage: "subfloor" | "bed";
            /**
             * Turn
             * @description By how much the scan was turned to the left
             */
            readonly turn: number;
            /**
             * Two Points Off
             * @description With two points: by how much their distance in the scan is longer than in the room
             */
            readonly two_points_off: number | null;
            /**
             * Unit
             * @enum {string}
             */
            readonly unit: "mm" | "cm" | "m" | "in" | "ft";
            /**
             * Unit Doubtful
             * @description Another unit would have fitted nearly as well: a person must look
             */
            readonly unit_doubtful: boolean;
            /**
             * Unit From
             * @description Why that unit
             * @enum {string}
             */
            readonly unit_from: "chosen" | "size" | "two_points";
            /**
             * Used
             * @description Points behind the readings
             */
            readonly used: number;
        };
        /** @description One piece of the bed, filled and cut off in one go. */
        readonly Section: {
            /** @description A place well inside it: what is entered for it keeps that, so that it is known by any number (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Batches to mix for it, waste included */
            readonly batches: number;
            /** @description Mortar in its channels, strips' widths times thicknesses (m3) */
            readonly channel_volume: number;
            /** @description Grooves to fill and pack at once after it; of two sections beside a strip the later one has it */
            readonly channels: readonly components["schemas"]["Channel"][];
            /** @description S1 is filled first */
            readonly id: string;
            /** @description Compacted mortar to mix for it, waste included (m3) */
            readonly mixed_volume: number;
            /** @description 1 is filled first */
            readonly order: number;
            /** @description A simple polygon, anticlockwise (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
            /** @description Compacted mortar in it (m3) */
            readonly volume: number;
            /** @description From its middle to the way out, over sections filled later, through the middles of their sides (mm) */
            readonly walk: number;
        };
        /** @description How far one section is. One without channels is packed once it is cut off. */
        readonly SectionClock: {
            /** @description Full batches mixed for it so far, those thrown away left out */
            readonly batches_mixed: number;
            /** @description Full batches it takes, waste included */
            readonly batches_needed: number;
            /** @description When its channels must be packed at the latest; null where none are due */
            readonly channels_due: string | null;
            /** @description The section's id */
            readonly id: string;
            /** @description True where fresh bed cuts it, still unfilled, off from the way out */
            readonly is_trapped: boolean;
            /** @description Where it lies, as in the plan (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
            /**
             * @description How far it is
             * @enum {unknown}
             */
            readonly state: "waiting" | "filling" | "placed" | "screeded" | "packed";
        };
        /**
         * SessionReply
         * @description Who this device is to the service.
         */
        readonly SessionReply: {
            /** Database */
            readonly database: string;
            /** Device Id */
            readonly device_id: string;
            /** Device Name */
            readonly device_name: string;
            /** Person */
            readonly person: string;
            /** Person Id */
            readonly person_id: string;
            /**
             * Protocol
             * @default 2
             */
            readonly protocol?: number;
            /**
             * Role
             * @enum {string}
             */
            readonly role: "foreman" | "setter" | "viewer";
            /**
             * Server Time
             * Format: date-time
             */
            readonly server_time: string;
            /**
             * View
             * @description Changes whenever the jobs that this person sees change
             */
            readonly view: number;
        };
        /** @description One lie of a strip along a rail, in the order they are used. */
        readonly Setting: {
            /** @description Where the strip begins, from the rail's beginning (mm) */
            readonly from: number;
            /** @description 1 is laid first, at the end away from the way out */
            readonly order: number;
            /** @description How much of it lies in finished bed; 0 for the first and after a break (mm) */
            readonly overlap: number;
            /** @description Stations under the strip, from the far end on, counted from 0 */
            readonly stations: readonly number[];
            /** @description Which of the strips on hand, counted from 0; null where none were told */
            readonly strip: number | null;
            /** @description Where it ends, from the rail's beginning (mm) */
            readonly to: number;
        };
        /** @description One standing of a levelling instrument. */
        readonly Setup: {
            /**
             * @description Where the instrument stood; of a straightedge, its first end (mm)
             * @default null
             */
            readonly at?: readonly [
                number,
                number
            ] | null;
            /** @description Its name in this document */
            readonly id: string;
            readonly instrument?: string | null;
            readonly kind?: ("laser" | "water_level" | "optical" | "straightedge") | null;
            /**
             * @description z of its level line where that is known beforehand (mm)
             * @default null
             */
            readonly line_height?: number | null;
            readonly sigma?: number | null;
            readonly sigma_per_metre?: number | null;
        };
        /** @description One set-up's level line. */
        readonly SetupHeight: {
            /** @description The set-up's id */
            readonly id: string;
            /** @description z of its level line, null where nothing ties it to the benchmark (mm) */
            readonly line_height: number | null;
            /** @description Standard error of that height, null without one (mm) */
            readonly sigma: number | null;
        };
        /**
         * SetupPart
         * @description One standing of the instrument; `sigma` in mm, `sigma_per_metre` in mm for each metre of sight.
         */
        readonly SetupPart: {
            /**
             * At
             * @default null
             */
            readonly at?: readonly number[] | null;
            /**
             * Id
             * @default null
             */
            readonly id?: string | null;
            /**
             * Instrument
             * @default null
             */
            readonly instrument?: string | null;
            /**
             * Kind
             * @default null
             */
            readonly kind?: string | null;
            /**
             * Line Height
             * @default null
             */
            readonly line_height?: number | null;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /**
             * Sigma
             * @default null
             */
            readonly sigma?: number | null;
            /**
             * Sigma Per Metre
             * @default null
             */
            readonly sigma_per_metre?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /**
         * SignOffFields
         * @description A room signed off: who, when, and a dated copy of what was signed, with the hashes of engine and input.
         */
        readonly SignOffFields: {
            /**
             * At
             * Format: date-time
             */
            readonly at: string;
            /** By */
            readonly by: string;
            /**
             * Copy
             * @description JSON: the document, and what the engine answered to it
             */
            readonly copy: string;
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /** Engine */
            readonly engine: string;
            /** Engine Hash */
            readonly engine_hash: string;
            /** Inputs Hash */
            readonly inputs_hash: string;
            /**
             * Note
             * @default null
             */
            readonly note?: string | null;
            /** Room Id */
            readonly room_id: string;
        };
        /** @description What may have been read or typed in place of what stood on the rod. */
        readonly Slip: {
            /** @description What the reading would be without it (mm) */
            readonly down: number;
            /** @description `whole_inch`, `whole_foot`, `whole_centimetre`, `whole_decimetre`, `whole_metre`, `fraction` (1/2 for 1/4 and the like), `transposed` (two digits changed places), `wrong_way` (counted from the mark's other side) or `other_side` (the rod's other face) */
            readonly kind: string;
        };
        /** @description A stretch of weather that harms the bed while it hardens. */
        readonly Spell: {
            /** @description True where some of it is foretold */
            readonly forecast: boolean;
            /**
             * Format: date-time
             * @description From
             */
            readonly from: string;
            /**
             * @description What
             * @enum {unknown}
             */
            readonly kind: "frost" | "cold" | "heat" | "evaporation" | "wind";
            /**
             * Format: date-time
             * @description To
             */
            readonly to: string;
            /** @description Its worst: °C, kg/(m²·h) or km/h */
            readonly worst: number;
        };
        /** @description Bags on each other and sand in a heap: a load in one place, not spread over the room. */
        readonly Stacked: {
            /** @description Floor that the bags take up, five on each other (m2) */
            readonly area: number;
            /** @description All bags (kg) */
            readonly bag_mass: number;
            /** @description Whole bags of cement, lime and bond coat */
            readonly bags: number;
            /** @description Load under the heaviest stack of bags, 0 without bags (kg/m2) */
            readonly load: number;
            /** @description Load under the heaviest stack of bags, 0 without bags (lb/ft2) */
            readonly load_lb_ft2: number;
            /** @description Bags and damp sand (kg) */
            readonly mass: number;
            /** @description Sand as delivered, damp (kg) */
            readonly sand_mass: number;
        };
        /** @description A place on a rail where the ramp's height is given. */
        readonly Station: {
            /** @description From the rail's beginning (mm) */
            readonly along: number;
            /** @description Where on the drawing (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description True where the top bends along the rail: at a hip, a valley, a drain's ring */
            readonly is_break: boolean;
            /** @description The same in whole millimetres */
            readonly millimetres: number;
            /** @description Height of the ramp under the strip: top less strip less subfloor (mm) */
            readonly shim: number;
            /** @description The shim in whole sixteenths of an inch, so that neighbours do not step */
            readonly sixteenths: number;
            /** @description Subfloor, z (mm) */
            readonly subfloor: number;
            /** @description Top of bed, z (mm) */
            readonly top: number;
        };
        /**
         * StationFields
         * @description A station that was set: where it stands and how high its ramp was then, mm.
         */
        readonly StationFields: {
            /** At */
            readonly at: readonly number[];
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /** Rail */
            readonly rail: string;
            /** Room Id */
            readonly room_id: string;
            /**
             * Set At
             * @default null
             */
            readonly set_at?: string | null;
            /** Shim */
            readonly shim: number;
        };
        /** @description What is still unknown of the subfloor. */
        readonly Statistics: {
            /** @description Standard errors over the floor */
            readonly doubts: readonly components["schemas"]["Doubt"][];
            /** @description The chance of a higher high spot */
            readonly higher: readonly components["schemas"]["Higher"][];
            /** @description The model fitted */
            readonly model: components["schemas"]["SurfaceModel"];
            /** @description The bed's volume, 90 % (m3) */
            readonly volume_range: readonly [
                number,
                number
            ];
        };
        /** @description A time in which nobody filled. */
        readonly Stoppage: {
            /**
             * @description When it went on, null while it has not
             * @default null
             */
            readonly end?: string | null;
            /**
             * Format: date-time
             * @description When work stopped
             */
            readonly start: string;
        };
        /** @description The bed under a straightedge, along it. */
        readonly StraightedgeAnswer: {
            /** @description What to know before it is relied on */
            readonly cautions: readonly components["schemas"]["Caution"][];
            /** @description The line from rest to rest over the profile (upper hull) (mm) */
            readonly edge: readonly (readonly [
                number,
                number
            ])[];
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description Where it stands open most; null where it lies on no read bed */
            readonly gap: components["schemas"]["Lying"] | null;
            /** @description The highest hump under it */
            readonly hump: components["schemas"]["Lying"] | null;
            /** @description Its length on the bed: ends beyond walls are left out (mm) */
            readonly length: number;
            /** @description Most that may stand open; null where no limit is for so short a straightedge (mm) */
            readonly limit: number | null;
            /** @description Along it, and the bed's height over the designed top (mm) */
            readonly profile: readonly (readonly [
                number,
                number
            ])[];
        };
        /** @description One length of straightedge over the whole bed, against one limit. */
        readonly StraightedgeCheck: {
            /** @description What the limit rests on, in English */
            readonly basis: string;
            /** @description Share of the bed that lies under a gap, or on a hump, beyond the limit */
            readonly beyond_share: number;
            /** @description Code of `basis`, from a closed set */
            readonly code: string;
            /** @description Worst place under it, null where nothing was read */
            readonly gap: components["schemas"]["Lying"] | null;
            /** @description Worst hump that it rocks on, null where there is none */
            readonly hump: components["schemas"]["Lying"] | null;
            /** @description Share of the bed where the readings are near enough for this length */
            readonly judged_share: number;
            /** @description Length of the straightedge (mm) */
            readonly length: number;
            /** @description Most that may stand open under it (mm) */
            readonly limit: number;
            /** @description False where the worst place is nearer to the limit than the readings can tell */
            readonly sure: boolean;
            /**
             * @description Against this limit
             * @enum {unknown}
             */
            readonly verdict: "within" | "beyond" | "too_sparse" | "not_read";
        };
        /** @description A straightedge laid on the bed by hand. */
        readonly StraightedgeQuestion: {
            /** @description The room document */
            readonly document: components["schemas"]["Document"];
            /** @description One end (mm) */
            readonly from: readonly [
                number,
                number
            ];
            /** @description The other end (mm) */
            readonly to: readonly [
                number,
                number
            ];
        };
        /** @description The strip that makes a rail. */
        readonly Strip: {
            readonly length?: number | null;
            readonly thickness?: number | null;
            readonly width?: number | null;
        };
        /** @description Strips of one length and thickness that are on hand. */
        readonly StripsOnHand: {
            readonly count?: number | null;
            /** @description Length of one strip (mm) */
            readonly length: number;
            /** @description Height of the strip as it lies (mm) */
            readonly thickness: number;
            /**
             * @description Width as it lies; null for the width of `strip` (mm)
             * @default null
             */
            readonly width?: number | null;
        };
        /**
         * StripsPart
         * @description Strips of one length and thickness that are on hand; mm.
         */
        readonly StripsPart: {
            /**
             * Count
             * @default null
             */
            readonly count?: number | null;
            /**
             * Length
             * @default null
             */
            readonly length?: number | null;
            /**
             * Thickness
             * @default null
             */
            readonly thickness?: number | null;
            /**
             * Width
             * @default null
             */
            readonly width?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description Everything besides cement, lime, sand and water. */
        readonly Supplies: {
            readonly bond_coat?: components["schemas"]["BondCoat"] | null;
            readonly membrane?: components["schemas"]["Membrane"] | null;
            readonly perimeter_strip?: components["schemas"]["PerimeterStrip"] | null;
            readonly reinforcement?: components["schemas"]["Reinforcement"] | null;
            readonly tile?: components["schemas"]["TileSupply"] | null;
        };
        /**
         * SuppliesFields
         * @description The company's packages and wastes, for everybody to see; rooms may differ.
         */
        readonly SuppliesFields: {
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Supplies.Bond Coat.Bag Mass
             * @default null
             */
            readonly "supplies.bond_coat.bag_mass"?: number | null;
            /**
             * Supplies.Bond Coat.Density
             * @default null
             */
            readonly "supplies.bond_coat.density"?: number | null;
            /**
             * Supplies.Bond Coat.Waste
             * @default null
             */
            readonly "supplies.bond_coat.waste"?: number | null;
            /**
             * Supplies.Membrane.Lap
             * @default null
             */
            readonly "supplies.membrane.lap"?: number | null;
            /**
             * Supplies.Membrane.Roll Length
             * @default null
             */
            readonly "supplies.membrane.roll_length"?: number | null;
            /**
             * Supplies.Membrane.Roll Width
             * @default null
             */
            readonly "supplies.membrane.roll_width"?: number | null;
            /**
             * Supplies.Membrane.Thickness
             * @default null
             */
            readonly "supplies.membrane.thickness"?: number | null;
            /**
             * Supplies.Membrane.Turned Up
             * @default null
             */
            readonly "supplies.membrane.turned_up"?: number | null;
            /**
             * Supplies.Perimeter Strip.Piece
             * @default null
             */
            readonly "supplies.perimeter_strip.piece"?: number | null;
            /**
             * Supplies.Perimeter Strip.Waste
             * @default null
             */
            readonly "supplies.perimeter_strip.waste"?: number | null;
            /**
             * Supplies.Reinforcement.Lap
             * @default null
             */
            readonly "supplies.reinforcement.lap"?: number | null;
            /**
             * Supplies.Reinforcement.Sheet Length
             * @default null
             */
            readonly "supplies.reinforcement.sheet_length"?: number | null;
            /**
             * Supplies.Reinforcement.Sheet Width
             * @default null
             */
            readonly "supplies.reinforcement.sheet_width"?: number | null;
            /**
             * Supplies.Reinforcement.Waste
             * @default null
             */
            readonly "supplies.reinforcement.waste"?: number | null;
            /**
             * Supplies.Tile.Box Area
             * @default null
             */
            readonly "supplies.tile.box_area"?: number | null;
            /**
             * Supplies.Tile.Waste
             * @default null
             */
            readonly "supplies.tile.waste"?: number | null;
            /**
             * Supplies.Tile.Width
             * @default null
             */
            readonly "supplies.tile.width"?: number | null;
        };
        /** @description The subfloor as triangles, linear in each. */
        readonly SurfaceAnswer: {
            /** @description Which points are centres of cells whose corners lie on one circle */
            readonly centres: readonly number[];
            /** @description Lines of equal height */
            readonly contours: readonly components["schemas"]["Contour"][];
            /** @description Which points are corners beyond the readings */
            readonly estimated: readonly number[];
            /** @description High spot */
            readonly highest: components["schemas"]["Extreme"];
            /** @description Low spot */
            readonly lowest: components["schemas"]["Extreme"];
            /** @description Readings, estimated corners, centres of regular cells (mm) */
            readonly points: readonly (readonly [
                number,
                number,
                number
            ])[];
            /** @description What is still unknown, null where it was not asked for */
            readonly statistics: components["schemas"]["Statistics"] | null;
            /** @description Anticlockwise, as indices of points */
            readonly triangles: readonly (readonly [
                number,
                number,
                number
            ])[];
        };
        /** @description The statistical surface fitted to the readings: a plane and what wanders off it, of the variogram told here. */
        readonly SurfaceModel: {
            /** @description The variogram's name */
            readonly kind: string;
            /** @description Standard error of one reading, small unevenness with it (mm) */
            readonly nugget: number;
            /** @description Distance at which two places hardly tell of each other (mm) */
            readonly range: number;
            /** @description Standard deviation of what wanders off the plane (mm) */
            readonly sill: number;
        };
        /** @description A reading that its neighbours or the network do not bear out. */
        readonly Suspect: {
            /** @description Height read less foretold (mm) */
            readonly difference: number;
            /** @description Height foretold without it (mm) */
            readonly expected: number;
            /** @description The reading's id */
            readonly reading: string;
            /** @description The difference over its standard error */
            readonly score: number;
            /** @description The likely slip, null where none fits */
            readonly slip: components["schemas"]["Slip"] | null;
            /** @description `neighbours` or `network` */
            readonly why: string;
        };
        /** @description Which column holds what, counted from 0; null where none does. */
        readonly TableColumns: {
            /**
             * @description Description
             * @default null
             */
            readonly description?: number | null;
            /**
             * @description Below the level line, in place of an elevation
             * @default null
             */
            readonly down?: number | null;
            /**
             * @description Easting, x on the drawing
             * @default null
             */
            readonly easting?: number | null;
            /**
             * @description Elevation, z
             * @default null
             */
            readonly elevation?: number | null;
            /**
             * @description Northing, y on the drawing
             * @default null
             */
            readonly northing?: number | null;
            /**
             * @description Name or number of the point
             * @default null
             */
            readonly point?: number | null;
        };
        /** @description How the table was read, its rows, and everything wrong with it. With any problem there are no rows. */
        readonly TableInAnswer: {
            /** @description Which column holds what */
            readonly columns: components["schemas"]["FoundColumns"];
            /**
             * @description Decimal point or decimal comma
             * @enum {unknown}
             */
            readonly decimal: "point" | "comma";
            /** @description The first lines as they stand, cell by cell */
            readonly first_rows: readonly (readonly string[])[];
            /** @description True where the first line names the columns */
            readonly header: boolean;
            /**
             * @description Which column the heights are taken from
             * @enum {unknown}
             */
            readonly heights: "elevation" | "down";
            /** @description What was taken off every elevation, where they are beyond any floor's (mm) */
            readonly lowered_by: number;
            /** @description The header's words, empty without one */
            readonly names: readonly string[];
            /** @description How the rows are laid on the drawing */
            readonly placing: components["schemas"]["Placing"];
            /** @description Ways to lay them that need no pairs */
            readonly placings: readonly components["schemas"]["Placing"][];
            /** @description How many problems there are in all */
            readonly problem_count: number;
            /** @description Everything wrong, line by line, up to a limit */
            readonly problems: readonly components["schemas"]["Problem"][];
            /** @description Lines that hold a point, good or bad */
            readonly row_count: number;
            /** @description Every point, or none where there is a problem */
            readonly rows: readonly components["schemas"]["TableRow"][];
            /**
             * @description What stands between the columns
             * @enum {unknown}
             */
            readonly separator: "comma" | "semicolon" | "tab" | "blanks";
            /**
             * @description Unit of all lengths without one of their own
             * @enum {unknown}
             */
            readonly unit: "mm" | "cm" | "m" | "in" | "ft" | "us_ft";
            /**
             * @description Why: chosen by a person; told by the header; feet or inch marks; the room's size; the numbers' size
             * @enum {unknown}
             */
            readonly unit_reason: "chosen" | "header" | "marks" | "room" | "size";
        };
        /** @description A table as text, and what is known about how to read it. */
        readonly TableInQuestion: {
            readonly mapping?: components["schemas"]["TableMapping"] | null;
            /**
             * @description The room's figure, to see which points stand in it
             * @default null
             */
            readonly outline?: components["schemas"]["Outline"] | null;
            readonly place?: components["schemas"]["TablePlace"] | null;
            /** @description The whole table */
            readonly text: string;
        };
        /** @description How the table is to be read; what is null is guessed. */
        readonly TableMapping: {
            /**
             * @description Which column holds what
             * @default null
             */
            readonly columns?: components["schemas"]["TableColumns"] | null;
            /**
             * @description Decimal point or decimal comma
             * @default null
             */
            readonly decimal?: ("point" | "comma") | null;
            /**
             * @description True where the first line names the columns
             * @default null
             */
            readonly header?: boolean | null;
            /**
             * @description Which column the heights are taken from
             * @default null
             */
            readonly heights?: ("elevation" | "down") | null;
            /**
             * @description What stands between the columns
             * @default null
             */
            readonly separator?: ("comma" | "semicolon" | "tab" | "blanks") | null;
            /**
             * @description Unit of all lengths without one of their own
             * @default null
             */
            readonly unit?: ("mm" | "cm" | "m" | "in" | "ft" | "us_ft") | null;
        };
        /** @description The readings as a table: point, northing, easting, elevation, description. */
        readonly TableOutAnswer: {
            /** @description Readings without a place or without a height */
            readonly left_out: number;
            /** @description Readings written */
            readonly rows: number;
            /** @description The table, its header first, lines ending in CR LF */
            readonly text: string;
        };
        /** @description A room, and how its table is to be written. */
        readonly TableOutQuestion: {
            readonly decimal?: ("point" | "comma") | null;
            /** @description The room document */
            readonly document: components["schemas"]["Document"];
            readonly separator?: ("comma" | "semicolon" | "tab" | "blanks") | null;
            readonly unit?: ("mm" | "cm" | "m" | "in" | "ft" | "us_ft") | null;
        };
        /** @description A point of the table and the place on the drawing where it belongs. */
        readonly TablePair: {
            /** @description Its place on the drawing (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description The point's line in the table, from 1 */
            readonly line: number;
        };
        /** @description How the points are laid on the drawing. */
        readonly TablePlace: {
            readonly kind?: ("as_they_are" | "low_corner" | "pairs") | null;
            readonly pairs?: readonly components["schemas"]["TablePair"][] | null;
        };
        /** @description One point, ready to be taken. */
        readonly TableRow: {
            /** @description Where it stands on the drawing (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Below the level line, null where elevations are given (mm) */
            readonly down: number | null;
            /** @description Its line in the table, from 1 */
            readonly line: number;
            /** @description Description, the stage taken out */
            readonly note: string;
            /** @description True where it stands outside the room */
            readonly outside: boolean;
            /** @description Name or number */
            readonly point: string;
            /**
             * @description What was read
             * @enum {unknown}
             */
            readonly stage: "subfloor" | "bed";
            /** @description Elevation, null where readings below a line are given (mm) */
            readonly z: number | null;
        };
        /** @description Where the place can be. */
        readonly TapedPlaceAnswer: {
            /** @description By how much the tapes fail to meet, 0 where they do (mm) */
            readonly misses: number;
            /** @description One or two places in the room, the first at the left of the line taped from (mm) */
            readonly places: readonly (readonly [
                number,
                number
            ])[];
        };
        /** @description Two known places, such as corners, and how far the sought place lies from each. */
        readonly TapedPlaceQuestion: {
            /** @description Taped from the first and from the second (mm) */
            readonly distances: readonly [
                number,
                number
            ];
            /** @description The two places that were taped from (mm) */
            readonly from: readonly [
                readonly [
                    number,
                    number
                ],
                readonly [
                    number,
                    number
                ]
            ];
            /** @description The room's figure */
            readonly outline: components["schemas"]["Outline"];
        };
        /** @description What a logger wrote: seconds after `start`, rising, and °C at each. */
        readonly TemperatureLog: {
            /** @description At each of those (Cel) */
            readonly celsius: readonly number[];
            readonly id?: string | null;
            /** @description After the start, rising (s) */
            readonly seconds: readonly number[];
            /**
             * Format: date-time
             * @description When it began
             */
            readonly start: string;
            readonly where?: ("bed" | "air") | null;
        };
        /**
         * TemperatureLogFields
         * @description What a logger wrote: seconds after `start`, rising, and °C at each.
         */
        readonly TemperatureLogFields: {
            /** Celsius */
            readonly celsius: readonly number[];
            /**
             * Deleted
             * @default false
             */
            readonly deleted?: boolean;
            /**
             * Name
             * @default null
             */
            readonly name?: string | null;
            /** Room Id */
            readonly room_id: string;
            /** Seconds */
            readonly seconds: readonly number[];
            /**
             * Start
             * Format: date-time
             */
            readonly start: string;
            /**
             * Where
             * @default null
             */
            readonly where?: ("bed" | "air") | null;
        };
        /** @description How thick the bed is, and where; negative where the top lies below the subfloor. */
        readonly Thickness: {
            /** @description Greatest (mm) */
            readonly max: number;
            /** @description Where it is greatest (mm) */
            readonly max_at: readonly [
                number,
                number
            ];
            /** @description Volume over area (mm) */
            readonly mean: number;
            /** @description Least (mm) */
            readonly min: number;
            /** @description Where it is least (mm) */
            readonly min_at: readonly [
                number,
                number
            ];
        };
        /** @description A milestone that a person looked at and let pass. No prediction ever makes one. */
        readonly Tick: {
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            readonly by?: string | null;
            readonly how?: ("scratch" | "sounding" | "thumb" | "foot" | "moisture_test" | "other") | null;
            /**
             * @description What was let pass
             * @enum {unknown}
             */
            readonly milestone: "walk" | "tile" | "grout" | "light_traffic" | "heavy_traffic";
        };
        /** @description Who let a milestone pass, when, and how they looked. */
        readonly Ticked: {
            /**
             * Format: date-time
             * @description When
             */
            readonly at: string;
            /** @description Who */
            readonly by: string;
            /**
             * @description How they looked
             * @enum {unknown}
             */
            readonly how: "scratch" | "sounding" | "thumb" | "foot" | "moisture_test" | "other";
        };
        /** @description The tile that joints are moved to. */
        readonly TileModule: {
            /** @description Square to it (mm) */
            readonly across: number;
            /** @description Along the longest wall (mm) */
            readonly along: number;
        };
        /** @description Tile as it is sold. */
        readonly TileSupply: {
            readonly box_area?: number | null;
            readonly waste?: number | null;
            /**
             * @description Width of a tile, null for that of the longest edge (mm)
             * @default null
             */
            readonly width?: number | null;
        };
        /** @description When tile can be set: on the fresh bed the same day, or when it has hardened. */
        readonly TileWindow: {
            /** @description What somebody chose, null where nobody did */
            readonly chosen: ("same_day" | "overnight") | null;
            /** @description The same day: when the first section was in place; null where none is */
            readonly fresh_from: string | null;
            /** @description How long the first section takes tile at these temperatures (h) */
            readonly fresh_hours: number;
            /** @description Until then the first section takes tile, and so the whole bed */
            readonly fresh_until: string | null;
            /** @description Hardened, early; null where nothing is placed or it is never met */
            readonly hardened_from: string | null;
            /** @description Hardened, likely */
            readonly hardened_likely: string | null;
            /** @description When the last section was in place; null where none is */
            readonly last_from: string | null;
            /** @description Until then the last section takes tile */
            readonly last_until: string | null;
        };
        /**
         * TopPart
         * @description How the top of bed is chosen: level, through points, of the least mortar, to a drain, or two levels.
         */
        readonly TopPart: {
            /**
             * Drain
             * @default null
             */
            readonly drain?: string | null;
            /**
             * Fall
             * @default null
             */
            readonly fall?: number | null;
            /**
             * Height
             * @default null
             */
            readonly height?: number | null;
            /**
             * Holds
             * @default null
             */
            readonly holds?: readonly components["schemas"]["HeldPart"][] | null;
            /**
             * Kind
             * @default null
             */
            readonly kind?: string | null;
            /**
             * Largest Fall
             * @default null
             */
            readonly largest_fall?: number | null;
            /**
             * Left
             * @default null
             */
            readonly left?: number | null;
            /**
             * Line
             * @default null
             */
            readonly line?: readonly (readonly number[])[] | null;
            /**
             * Perimeter
             * @default null
             */
            readonly perimeter?: number | null;
            /**
             * Ramp
             * @default null
             */
            readonly ramp?: number | null;
            /**
             * Right
             * @default null
             */
            readonly right?: number | null;
            /**
             * Through
             * @default null
             */
            readonly through?: readonly (readonly number[])[] | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description A place of the bed that somebody rubbed down or filled up: what was read there before is out of date. */
        readonly Touch: {
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /**
             * Format: date-time
             * @description When
             */
            readonly done_at: string;
            /**
             * @description Rubbed down or filled up
             * @enum {unknown}
             */
            readonly way: "rub" | "fill";
        };
        /** @description A rail that was taken up and bedded anew: by how much each end of its strip was moved. */
        readonly Truing: {
            /**
             * @description When; readings before it no longer tell how the rail lies
             * @default null
             */
            readonly at?: string | null;
            readonly from_raise?: number | null;
            /**
             * @description Which lie of its strip, by its order; null for all of the rail
             * @default null
             */
            readonly lie?: number | null;
            /** @description The rail's id */
            readonly rail: string;
            readonly to_raise?: number | null;
        };
        /** @description How the rails lie, and whether that is good enough. `worst` is the most that a rail's end is out. */
        readonly TruingAnswer: {
            /** @description Every reading, in their order */
            readonly checks: readonly components["schemas"]["CheckFit"][];
            /** @description True where every rail was read and nothing need be corrected as the strips lie now */
            readonly is_good_enough: boolean;
            /** @description Every level that was used */
            readonly levels: readonly components["schemas"]["LevelError"][];
            /** @description What to read next, null where it would tell nothing new */
            readonly next_check: components["schemas"]["NextCheck"] | null;
            /** @description Every rail, where its strip lies now */
            readonly rails: readonly components["schemas"]["RailError"][];
            /** @description Most a rail may be out (mm) */
            readonly tolerance: number;
            /** @description The worst end as it lies (mm) */
            readonly worst: number;
            /** @description The worst end once corrected as told (mm) */
            readonly worst_after: number;
        };
        /** @description Two levels with a ramp between; the line is the ramp's lower or upper edge on the left-hand side. */
        readonly TwoLevelTop: {
            readonly kind?: "two_levels" | null;
            /** @description z of the top to the left of the line (mm) */
            readonly left: number;
            /** @description Where the left level ends; left as seen along it (mm) */
            readonly line: readonly [
                readonly [
                    number,
                    number
                ],
                readonly [
                    number,
                    number
                ]
            ];
            /** @description How wide the ramp is, across the line; it lies to the right of it (mm) */
            readonly ramp: number;
            /** @description z of the top beyond the ramp (mm) */
            readonly right: number;
        };
        /** @description A set-up that nothing ties to the benchmark; its readings have no height. */
        readonly Untied: {
            /** @description How many readings wait for the tie */
            readonly readings: number;
            /** @description The set-up's id */
            readonly setup: string;
        };
        /** @description One place where the bed breaks a limit, and by how much. */
        readonly Violation: {
            /** @description Where (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description How much it misses the limit by (mm) */
            readonly by: number;
            /** @description `no_bed` (top at or below the subfloor), `too_thin` or `too_thick` */
            readonly kind: string;
            /** @description Thickness there (mm) */
            readonly thickness: number;
        };
        /** @description How the waiting stands at a moment. */
        readonly WaitingAnswer: {
            /** @description Equivalent age now; null where nothing is placed (h) */
            readonly age_now: number | null;
            /** @description What can hurt a person or spoil the bed */
            readonly cautions: readonly components["schemas"]["Caution"][];
            /** @description Temperature now; null where nothing is known of it (Cel) */
            readonly celsius_now: number | null;
            /** @description Every milestone */
            readonly countdown: readonly components["schemas"]["Countdown"][];
            /** @description From placing until the last milestone, thinned to be drawn */
            readonly curve: readonly components["schemas"]["CurvePoint"][];
            /** @description Null where there is no bed, or the covering does not mind moisture */
            readonly drying: components["schemas"]["Drying"] | null;
            /** @description Which engine computed it */
            readonly engine: components["schemas"]["Identity"];
            /** @description Where humidity and wind are known */
            readonly evaporation: readonly components["schemas"]["EvaporationRow"][];
            /** @description What stands behind a figure, by its path in this answer */
            readonly explanations: {
                readonly [key: string]: components["schemas"]["Explanation"];
            };
            /** @description Temperature-time factor now (Cel.h) */
            readonly factor_now: number | null;
            /**
             * @description Which maturity method the milestones are told by
             * @enum {unknown}
             */
            readonly method: "equivalent_age" | "temperature_time";
            /** @description Entries left out, and why */
            readonly notices: readonly components["schemas"]["Problem"][];
            /**
             * Format: date-time
             * @description The moment that was asked about
             */
            readonly now: string;
            /** @description When the last section was placed, null where nothing is */
            readonly placed_at: string | null;
            /** @description Weather that harms the bed while it hardens, in order of time */
            readonly spells: readonly components["schemas"]["Spell"][];
            /** @description When tile can be set */
            readonly tile: components["schemas"]["TileWindow"];
        };
        /** @description A room, and what time it is. */
        readonly WaitingQuestion: {
            /** @description The room document */
            readonly document: components["schemas"]["Document"];
            /**
             * Format: date-time
             * @description The moment that is asked about
             */
            readonly now: string;
        };
        /** @description The places to read, in walking order, from the way in to the far end. */
        readonly WalkAnswer: {
            /** @description Way from the first place to the last (mm) */
            readonly length: number;
            /** @description In the order they are walked */
            readonly places: readonly components["schemas"]["WalkPlace"][];
            /** @description No place of the floor is farther than this from a place to read; null without any place (mm) */
            readonly spacing: number | null;
        };
        /** @description One place to read. */
        readonly WalkPlace: {
            /** @description Where the rod's foot goes (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Its name, the same as long as its own wall, corner, doorway or grid stays */
            readonly id: string;
            /**
             * @description What it is there for
             * @enum {unknown}
             */
            readonly kind: "corner" | "wall" | "doorway" | "floor" | "fixture";
        };
        /** @description The parts of a room document that a walk needs; a whole document may be given, the rest is not looked at. */
        readonly WalkQuestion: {
            readonly fixtures?: readonly components["schemas"]["Fixture"][] | null;
            readonly openings?: readonly components["schemas"]["Opening"][] | null;
            /** @description The room's figure */
            readonly outline: components["schemas"]["Outline"];
            readonly rails?: components["schemas"]["RailDesign"] | null;
        };
        /** @description One wall as taped: walk `length`, then turn left by `turn` degrees (negative is right). */
        readonly Wall: {
            /** @description Taped length (mm) */
            readonly length: number;
            /**
             * @description Turn to the left after this wall; only the last may go without (degree)
             * @default null
             */
            readonly turn?: number | null;
        };
        /**
         * WallPart
         * @description A wall as taped: its length in mm and the turn to the left after it in degrees.
         */
        readonly WallPart: {
            /**
             * Length
             * @default null
             */
            readonly length?: number | null;
            /**
             * Turn
             * @default null
             */
            readonly turn?: number | null;
        } & {
            readonly [key: string]: unknown;
        };
        /** @description One place to work over: rub down, or fill up. In order of effect. */
        readonly Work: {
            /** @description And when it is done (mm) */
            readonly after: number;
            /** @description Where it is deepest (mm) */
            readonly at: readonly [
                number,
                number
            ];
            /** @description Worst gap or hump there before (mm) */
            readonly before: number;
            /** @description Its read places, each with what is put on there as z, - taken off (mm) */
            readonly changes: readonly (readonly [
                number,
                number,
                number
            ])[];
            /** @description At its deepest, how much to take off or put on (mm) */
            readonly depth: number;
            /** @description When somebody said that it was done; it counts when the place is read again */
            readonly done_at: string | null;
            /** @description K1, K2 ... in order */
            readonly id: string;
            /** @description Under which straightedge (mm) */
            readonly length: number;
            /** @description Where, anticlockwise (mm) */
            readonly polygon: readonly (readonly [
                number,
                number
            ])[];
            /** @description Mortar taken off or put on (m3) */
            readonly volume: number;
            /**
             * @description Rub down or fill up
             * @enum {unknown}
             */
            readonly way: "rub" | "fill";
        };
        /** @description How long a batch can be worked. */
        readonly WorkingTime: {
            /** @description Time to use a batch (h) */
            readonly hours: number;
            /** @description Temperature when mixing (Cel) */
            readonly temperature: number;
            /** @description When the last batch mixed must be used; null where none is mixed */
            readonly until: string | null;
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    readonly calendarState: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CalendarState"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly makeCalendar: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["CalendarRequest"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CalendarMade"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly revokeCalendar: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CalendarState"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly removeDevice: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly device_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["KnownDevice"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `last_foreman`: Somebody must remain who may let others in */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly renameDevice: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly device_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["DeviceEdit"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["KnownDevice"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly events: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "text/event-stream": unknown;
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly health: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["HealthReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly invite: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["InviteRequest"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["InviteReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly job_file: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly job_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description The file: a zip with `job.json`, and the photos that are here */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/zip": string;
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly forecast: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly job_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["ForecastReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `viewer_only_looks`: A viewer may only look */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `forecast_without_place`: The job does not say where it is */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `forecast_off`: This service asks nobody for the weather */
            readonly 501: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `forecast_unreachable`: The weather could not be asked for; `forecast_unreadable`: The weather's answer cannot be read */
            readonly 502: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly job_history: {
        readonly parameters: {
            readonly query?: {
                /** @description The number up to which everything is known */
                readonly after?: number;
                readonly limit?: number;
            };
            readonly header?: never;
            readonly path: {
                readonly job_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobHistoryReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly take_job_file: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/octet-stream": string;
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobFileReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `octets_required`: The request must be application/octet-stream */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `job_file_not_taken`: Nothing was taken from the job file */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly join: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["JoinRequest"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JoinReply"];
                };
            };
            /** @description `wrong_code`: The join code is wrong */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `device_taken`: This device belongs to somebody else */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `name_needed`: A name is needed to join with this code; `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_many_tries`: Too many wrong codes */
            readonly 429: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly levels: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["LevelsDocument"];
            };
        };
        readonly responses: {
            /** @description The levels */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["LevelsReport"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `bad_document`: The room document gives no plan */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly people: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PeopleReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly editPerson: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly person_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["PersonEdit"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["KnownPerson"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `foreman_only`: Only a foreman may do this */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `last_foreman`: Somebody must remain who may let others in */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly photo: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                /** @description SHA-256 of the picture's bytes */
                readonly hash: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly sendPhotoPart: {
        readonly parameters: {
            readonly query: {
                /** @description Where in the picture this part begins */
                readonly offset: number;
                /** @description Bytes of the whole picture */
                readonly size: number;
            };
            readonly header?: never;
            readonly path: {
                /** @description SHA-256 of the picture's bytes */
                readonly hash: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/octet-stream": string;
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `viewer_only_looks`: A viewer may only look */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `photo_gap`: Bytes are missing before these */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `octets_required`: The request must be application/octet-stream */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `photo_differs`: The photo is not what its record says; `photo_damaged`: The photo did not arrive whole; `photo_unknown_type`: The photo is of no type that is taken; `photo_too_large`: The photo has too many pixels; `photo_has_position`: The photo tells where it was taken */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly photoFile: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                /** @description SHA-256 of the picture's bytes */
                readonly hash: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description The picture */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/jpeg": string;
                    readonly "image/png": string;
                    readonly "image/webp": string;
                };
            };
            /** @description The picture that the browser holds is still good */
            readonly 304: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content?: never;
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly photoThumbnail: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                /** @description SHA-256 of the picture's bytes */
                readonly hash: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description The picture */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/jpeg": string;
                };
            };
            /** @description The picture that the browser holds is still good */
            readonly 304: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content?: never;
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly plan: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["Document"];
            };
        };
        readonly responses: {
            /** @description The plan */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Plan"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `bad_document`: The room document gives no plan */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly pull: {
        readonly parameters: {
            readonly query?: {
                /** @description The number up to which everything is known */
                readonly after?: number;
                readonly limit?: number;
                /** @description The view that `after` was counted in; a first phone names none */
                readonly view?: number | null;
            };
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PullReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly push: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["PushRequest"];
            };
        };
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PushReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `viewer_only_looks`: A viewer may only look */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `device_forked`: This device's numbers are already used for other changes; `gap`: A change is missing before these */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `json_required`: The request must be application/json */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `not_json`: The request is not JSON */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `update_needed`: This service is older than the phone */
            readonly 426: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly history: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly kind: "job" | "room" | "reading" | "placement" | "batch" | "station" | "rail_check" | "entry" | "climate" | "photo" | "alternative" | "gap" | "height_line" | "temperature_log" | "forecast_day" | "sign_off" | "prices" | "supplies";
                readonly record_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["HistoryReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly scan: {
        readonly parameters: {
            readonly query?: {
                /** @description Side of a cell, mm */
                readonly cell?: number | null;
                /** @description x, y, x, y */
                readonly in_room?: readonly number[] | null;
                /** @description x, y, x, y */
                readonly in_scan?: readonly number[] | null;
                /** @description Of the tile, mm; the room's own if left out */
                readonly longest_edge?: number | null;
                /** @description That a reading needs behind it */
                readonly minimum_points?: number;
                /** @description How the scan comes to lie in the room */
                readonly placing?: "as_it_is" | "corner" | "two_points";
                /** @description What was scanned: the subfloor or the finished bed */
                readonly stage?: "subfloor" | "bed";
                /** @description Whose limits of flatness hold for a bed; the room's own if left out */
                readonly standard?: ("ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4" | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own") | null;
                /** @description What the scan is measured in; auto judges by the room's size */
                readonly unit?: "auto" | "mm" | "cm" | "m" | "in" | "ft";
                /** @description Which of the scan's axes points up */
                readonly up?: "z" | "y";
            };
            readonly header?: never;
            readonly path: {
                readonly room_id: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/octet-stream": string;
            };
        };
        readonly responses: {
            /** @description Lines of JSON: `ScanProgress`, and at last a `ScanReply` or a `ProblemReply` */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/x-ndjson": string;
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `viewer_only_looks`: A viewer may only look */
            readonly 403: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `too_large`: The request is too large */
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `octets_required`: The request must be application/octet-stream */
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape; `bad_document`: The room document gives no plan; `scan_unreadable`: The scan cannot be read */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly session: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["SessionReply"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly leave: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description Successful Response */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["KnownDevice"];
                };
            };
            /** @description `not_joined`: This device has not joined; `device_removed`: This device was removed */
            readonly 401: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `last_foreman`: Somebody must remain who may let others in */
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
    readonly calendar: {
        readonly parameters: {
            readonly query?: {
                readonly language?: "en" | "es";
                /** @description IANA name, such as Europe/Madrid */
                readonly zone?: string;
            };
            readonly header?: {
                readonly "if-none-match"?: string | null;
            };
            readonly path: {
                readonly secret: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            /** @description The calendar (RFC 5545) */
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "text/calendar": string;
                };
            };
            /** @description Nothing is new since the text with that tag */
            readonly 304: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content?: never;
            };
            /** @description `not_found`: There is nothing here */
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `malformed`: The request is not in the agreed shape */
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_failed`: The database failed; `internal`: The service made a mistake */
            readonly 500: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `busy`: The service is busy */
            readonly 503: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
            /** @description `storage_full`: The service's disk is full */
            readonly 507: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/problem+json": components["schemas"]["ProblemReply"];
                };
            };
        };
    };
}
