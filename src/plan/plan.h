#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "air/air_record.h"
#include "base/time.h"
#include "base/units.h"
#include "drying/stage.h"
#include "recipe/product.h"
#include "safety/room_air.h"

/// The dated result of planning, as docs/plan-format.md describes it. Data alone: report/ prints
/// it.
namespace coatwright {

enum class StepKind {
  kSample,
  kSand,
  kClean,
  kRaiseGrain,
  kWash,
  kFill,
  kMask,
  kMix,
  kApply,
  kWipe,
  kRags,
  kAbrade,
  kFlip,
  kUnmask,
  kGlue,
  kDryFit,
  kAssemble,
  kHardware,
  kRubOut,
  kCleanGun,
  kFanOff,
  kWait,
  kInspect,
  kDeliver,
  kCleanBooth,  ///< Deposits out of it, and its filters new.
  kReenter      ///< Not before it may one breathe the finishing room's air; no work.
};

/// "sand", "raise_grain", "clean_gun" ... as the plan's JSON writes them.
[[nodiscard]] std::string_view name_of(StepKind kind);
[[nodiscard]] std::optional<StepKind> step_kind_named(std::string_view name);

/// One stretch of a wait with its law: what report/ needs to show the integral.
struct WaitPhase {
  RateLaw law;
  DurationRange range;  ///< At the reference, for this film.
  Hours needed;         ///< At the plan's confidence.
  /// Where the range is what this shop has learned: that of the label or class.
  std::optional<DurationRange> labelled = std::nullopt;
};

/// Why a step may not start before a moment, and until when it may.
struct Wait {
  int step = 0;           ///< Id of the step that it follows.
  std::string stage;      ///< "recoat", "sandable", "wipe-off", "dust-free" ...
  std::string mechanism;  ///< In words.
  std::string product;    ///< Whose stage it is.
  std::vector<WaitPhase> phases;
  std::optional<Temperature> gate;  ///< Nothing was earned below this temperature.
  Time since;                       ///< The moment from which the drying clock runs.
  Time opens_at;
  Hours needed = Hours::from_hours(0);  ///< At the reference, for the confidence.
  Hours earned = Hours::from_hours(0);  ///< Up to the step's start.
  std::optional<Time> closes_at;
  std::optional<WaitPhase> closing;  ///< The window's own range, ungated.
  std::optional<Time> closing_since;
  std::string condition;  ///< "none", "abrade", or what else must be done.
  std::string source;     ///< Key of the figure's source.
  double chance = 1.0;    ///< Joint chance of being inside the window at the step's start.
};

struct PlanStep {
  int id = 0;
  std::string piece;
  std::string part;
  std::string face;  ///< "", "front", "back", "both"
  StepKind kind = StepKind::kSand;
  std::string product;  ///< Recipe name; empty where none. A kClean with one cleans its tools.
  std::string product_title;
  std::string revision;  ///< Of the product's recipe, for a kApply that is still to be done.
  std::string method;    ///< "wipe", "brush", "spray" for kApply.
  int coat = 0;          ///< Number of the coat on this face, from 1; 0 where none.
  std::string grit;      ///< "P180"
  Time start;
  Time end;
  bool attended = true;
  int people = 1;
  int spray_places = 0;
  int rack_places = 0;
  int benches = 0;
  std::string room = "finishing";
  bool done = false;
  std::vector<Wait> after;
  AirState air{Temperature::from_celsius(0),
               RelativeHumidity::from_fraction(0),
               Temperature::from_celsius(0),
               AirOrigin::kUsualDay};
  Temperature surface = Temperature::from_celsius(0);
  double chance = 1.0;
  std::string work_source;  ///< Source of the working time.
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
  std::vector<std::string> hazards = {};  ///< Of a coat, a word or two each, the gravest first.
};

/// The chance that one step finds its windows open when the calendar says.
struct StepOdds {
  int step = 0;
  double chance = 1.0;
};

/// The chance that one piece ends by its date.
struct PieceOdds {
  std::string piece;
  double chance = 1.0;
};

/// What simulation says of a plan.
struct PlanOdds {
  int trials = 0;
  unsigned seed = 0;
  double half_width = 0.0;      ///< Of the 95 % interval of any chance here, at the most.
  std::vector<StepOdds> steps;  ///< Those that wait for something uncertain.
  /// By date as below, of those that have one.
  std::vector<PieceOdds> pieces;
  double as_printed = 1.0;  ///< That every step holds at its time.
  double by_date = 1.0;     ///< That all end by their dates when every step waits until it holds.
};

/// When a piece reaches a stage after its last coat.
struct Milestone {
  std::string piece;
  std::string part;
  std::string stage;
  Time at;
  std::string source;
};

struct PlanWarning {
  std::string code;  ///< "no-usual-day", "blush", "window-missed" ...
  std::string text;
  std::optional<int> step;
};

/// What keeps the plan from ending sooner, in order of size.
struct HoldUp {
  std::string text;
  std::chrono::seconds span{0};
};

/// Why a step does not begin sooner, one link of the chain that leads to a piece's end.
struct CriticalLink {
  int step = 0;       ///< Id of the step that waits.
  int after = 0;      ///< Id of the step that it waits for; 0: none.
  std::string cause;  ///< "drying", "work", "dust", "people", "spray places", "rack places",
                      ///< "benches", or what it began by: "start", "earliest".
  std::chrono::seconds waited{0};  ///< From the end of that step, drying and all.
  std::chrono::seconds closed{0};  ///< Of that, with nobody there.
  std::chrono::seconds air{0};     ///< Of that, with somebody there, but outside a coat's limits.
};

/// Work that stood ready and waited for what is no drying of its own.
struct SharedWait {
  int step = 0;       ///< Id of the first step of the session that waits.
  int after = 0;      ///< Id of the step that makes it wait; 0: none.
  std::string cause;  ///< As of a CriticalLink: "dust", "people", "spray places", "rack places",
                      ///< "benches", "earliest".
  std::chrono::seconds waited{0};  ///< From when it was ready, closed hours and bad air left out.
};

/// How long work stood ready while a resource was taken.
struct Shortage {
  std::string resource;            ///< "people", "spray places", "rack places", "benches"
  std::chrono::seconds waited{0};  ///< Summed over all sessions that waited for it.
  int sessions = 0;
};

/// A part of a product that is mixed before use.
struct PlannedPart {
  std::string name;
  Volume amount = Volume::from_litres(0);
};

struct PlannedQuantity {
  std::string product;
  std::string product_title;
  Volume amount = Volume::from_litres(0);  ///< To have at hand, waste included.
  std::string basis;                       ///< "2 coats on 1.90 m2 (20 sq ft) at 10.0 m2/L ..."
  std::vector<PlannedPart> parts = {};     ///< Empty: one part.
  int batches = 0;                         ///< How often its parts are mixed; 0: one part.
};

/// What must be begun a good while before a coat.
struct PlanPreparation {
  PreparationCase when = PreparationCase::kAlways;
  std::vector<std::string> products;  ///< Recipe names.
  std::vector<std::string> product_titles;
  std::string text;  ///< An order to the maker.
  Time begin_by;     ///< The latest moment while somebody is there; may lie before the plan.
  Hours low;         ///< From its end to the first coat.
  Hours high;
  std::string source;
};

/// A mechanism's parameters, so that a reader can integrate again.
struct PlanRate {
  std::string product;
  std::string stage;
  RateLaw law;
  Hours low;
  Hours high;
  double film_factor = 1.0;
  std::optional<Temperature> gate;
  std::string source;
};

struct PlanPiece {
  std::string name;
  std::string species;
  std::string schedule;
  Area area = Area::from_square_metres(0);
  int faces = 1;
  bool on_points = false;
  std::vector<std::string> parts;
  std::optional<Time> due;
  double weight = 1.0;
  std::optional<Time> finish;
  std::chrono::seconds late{0};
  std::optional<double> chance;             ///< That it ends by its date; none: not reckoned.
  std::vector<CriticalLink> critical = {};  ///< From its last step back; of a shop's plan.
};

/// Hours in which so many people are there.
struct StaffedHours {
  Interval open;
  int people = 1;
};

/// What there is to work with, as the shop says it; a count that is not set is not short.
struct PlanShop {
  int people = 1;                   ///< The most that are there at a time.
  std::vector<StaffedHours> hours;  ///< When how many are there, in order.
  std::optional<int> spray_places;
  std::optional<int> rack_places;
  std::optional<int> benches;
};

/// What one coat sets free into the finishing room.
struct PlanVapour {
  int step = 0;       ///< Id of the step that begins it.
  CoatVapour vapour;  ///< Points into the recipes that the plan was made from.
  /// The highest that the mixed air comes to from its first stroke until the next coat's, other
  /// coats' vapour included; none: the room is not known.
  std::optional<double> of_explosive_limit;
  std::optional<double> of_exposure_limits;
};

/// What the plan does to the air of the finishing room.
struct PlanRoom {
  FinishingRoom room;
  std::vector<PlanVapour> coats;  ///< In order.
  std::vector<FanRun> runs;       ///< As of a RoomCourse.
  /// The least fan that keeps every coat below a quarter of the explosive limit; none: the one
  /// there is does, or the room is not known, or none would.
  std::optional<AirFlow> fan_needed;
};

/// A step that has another place than in the plan before.
struct PlanChange {
  StepKind kind = StepKind::kSand;
  std::string product_title;
  int coat = 0;
  std::string face;
  std::string grit;
  std::optional<Time> was;  ///< Its start then; none: it is new.
  std::optional<Time> is;   ///< Its start now; none: it is not planned any more.
  std::string piece = {};   ///< Empty where the plan before was of one piece alone.
  std::string part = {};
};

/// What became of the plan before.
struct PlanChanges {
  Time since;  ///< When that was made.
  std::optional<Time> finish_was;
  std::vector<PlanChange> steps;         ///< By their time now, those that are gone last.
  std::vector<std::string> new_recipes;  ///< Titles of products whose recipe is another one now.
};

/// How late the pieces of a shop's plan are: each one's lateness times its weight, summed.
struct PlanLateness {
  std::chrono::seconds weighted{0};
  std::chrono::seconds bound{0};  ///< No plan is less late.
};

struct PlanSearch {
  unsigned seed = 0;
  std::int64_t nodes = 0;
  std::string stopped_by = "proof";
};

struct Plan {
  Time made_at;
  Time from;
  Time by;
  double confidence = 0.9;
  bool complete = false;  ///< Every step has its place; false: steps stop at the hold-up.
  bool fits = false;      ///< Complete, and ends by the date.
  std::optional<Time> finish;
  std::optional<Time> bound;             ///< No plan ends earlier than this.
  std::optional<PlanLateness> lateness;  ///< Of a shop's plan; none: no piece is late.
  double chance = 0;                     ///< That it ends by its date.
  PlanSearch search;
  std::vector<Interval> hours;
  std::optional<PlanRoom> room;  ///< None: nothing that is put on gives off vapour.
  std::optional<PlanShop> shop;  ///< None: one piece was planned as if it had the shop to itself.
  std::vector<PlanPiece> pieces;
  std::vector<AirKnot> air;  ///< Corners that the plan's drying clocks ran over.
  std::vector<PlanStep> steps;
  std::vector<Milestone> milestones;
  std::vector<PlanPreparation> preparations;
  std::vector<PlannedQuantity> quantities;
  std::vector<PlanWarning> warnings;
  std::vector<HoldUp> hold_ups;
  std::vector<Shortage> shortages;       ///< Of a shop's plan, the longest first.
  std::vector<SharedWait> shared_waits;  ///< Of a shop's plan, by step.
  std::vector<PlanRate> rates;
  std::optional<PlanOdds> odds;        ///< None: not asked for.
  std::optional<PlanChanges> changes;  ///< None: there was no plan before.
};

}  // namespace coatwright
