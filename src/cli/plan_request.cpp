#include "cli/plan_request.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "air/logger_file.h"
#include "base/quantity_text.h"
#include "base/time_expression.h"
#include "cli/finished_parts.h"
#include "cli/learned_shop.h"
#include "cli/moisture_input.h"
#include "cli/piece_meant.h"
#include "recipe/schedule_check.h"

namespace coatwright {
namespace {

// A plan that misses its date goes on for this long before it is given up.
constexpr std::chrono::hours kBeyondDate{24 * 28};
// One that rubs a film out, which has to cure for weeks before, goes on for longer.
constexpr std::chrono::hours kBeyondRubOut{24 * 90};
// Air before the first step matters only through the board that lags it.
constexpr std::chrono::hours kAirBefore{6};
constexpr double kLeastConfidence = 0.5;
constexpr double kMostConfidence = 0.99;

Result<double> parse_confidence(const std::string& text) {
  double value = 0.0;
  const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool percent = failure == std::errc() && std::string_view(end) == "%";
  if (failure != std::errc() || (*end != '\0' && !percent)) {
    return fail(ErrorCode::kUsage,
                fmt::format("--confidence '{}' is not a number: write 0.9 or 90%", text));
  }
  value = percent ? value / 100.0 : value;
  if (value < kLeastConfidence || value > kMostConfidence) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("--confidence '{}' is out of range: {} to {} is allowed",
                            text,
                            kLeastConfidence,
                            kMostConfidence));
  }
  return value;
}

Faces faces_of(PieceFaces stored) {
  switch (stored) {
    case PieceFaces::kOne:
      return Faces::kOne;
    case PieceFaces::kTwo:
      return Faces::kTwo;
    case PieceFaces::kOnPoints:
      break;
  }
  return Faces::kOnPoints;
}

Faces faces_of(const std::string& typed) {
  return typed == "2" ? Faces::kTwo : typed == "points" ? Faces::kOnPoints : Faces::kOne;
}

constexpr PieceAsk kAsk = {
    "there is no piece to plan: store one with `coatwright piece add`, or give "
    "--schedule, --area and --by",
    "say which piece with --piece"};

/// What a piece is before its names are looked up in the recipes.
struct PieceNames {
  std::string name;
  std::string schedule;
  std::string species;
  Area area = Area::from_square_metres(0);
  Faces faces = Faces::kOne;
  std::optional<Time> from;
  std::optional<Time> due;
  std::optional<StoredPiece> stored;  ///< None: given by options alone.
  std::string surface;                ///< Empty: planed.
  std::string over;                   ///< Empty: bare wood.
};

Result<PieceNames> piece_names(const PlanOptions& options, const Session& session) {
  PieceNames names;
  if (options.schedule.empty()) {
    const auto stored = piece_meant(options.piece, session, kAsk);
    if (!stored) {
      return pass_on(stored.error());
    }
    names = {stored->name,
             stored->schedule,
             stored->species,
             stored->area,
             faces_of(stored->faces),
             stored->earliest,
             stored->due,
             *stored,
             stored->surface,
             stored->over.value_or("")};
  } else {
    names.name = options.piece.empty() ? "piece" : options.piece;
    names.schedule = options.schedule;
    if (options.area.empty()) {
      return fail(ErrorCode::kUsage, "say how large the piece is: --area 1.9m2 or 20sqft");
    }
  }
  if (!options.species.empty()) {
    names.species = options.species;
  }
  if (!options.faces.empty()) {
    names.faces = faces_of(options.faces);
  }
  if (!options.surface.empty()) {
    names.surface = options.surface;
  }
  if (!options.over.empty()) {
    names.over = options.over;
  }
  if (!options.area.empty()) {
    const auto area = parse_area(options.area);
    if (!area) {
      return pass_on(area.error(), "--area");
    }
    names.area = *area;
  }
  return names;
}

Result<void> fill_times(const PlanOptions& options,
                        const PieceNames& names,
                        const Session& session,
                        PlanRequest& request) {
  request.made_at = session.now;
  request.from = std::max(session.now, names.from.value_or(session.now));
  if (!options.from.empty()) {
    const auto from = parse_time(options.from, session.now, session.zone, Direction::kForward);
    if (!from) {
      return pass_on(from.error(), "--from");
    }
    request.from = *from;
  }
  if (options.by.empty() && !names.due) {
    return fail(ErrorCode::kUsage, "say by when it is to be finished: --by \"Sun 20:00\"");
  }
  request.by = names.due.value_or(request.from);
  if (!options.by.empty()) {
    const auto by = parse_time(options.by, request.from, session.zone, Direction::kForward);
    if (!by) {
      return pass_on(by.error(), "--by");
    }
    request.by = *by;
  }
  // A piece whose date is past is late, and goes on being planned.
  if (!options.by.empty() && request.by <= request.from) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("--by {} is not after the start, {}",
                            show_full(request.by, session.zone),
                            show_full(request.from, session.zone)));
  }
  request.horizon =
      plan_horizon(std::max(request.by, request.from), rubs_out(*request.piece.schedule));
  const auto times = plan_times(options, session);
  if (!times) {
    return pass_on(times.error());
  }
  request.hours = times->open(request.from, request.horizon, session.zone);
  return {};
}

/// A file given to one plan: what lies behind now was measured, what lies ahead is expected.
Result<std::vector<AirEntry>> entries_of_file(const std::string& path, const Session& session) {
  const auto text = read_input_file(path);
  if (!text) {
    return pass_on(text.error());
  }
  auto content = read_logger_file(*text, AirOrigin::kForecast, session.zone, {});
  if (!content) {
    Error error = content.error();
    const bool asks_for_option = error.message.find("--") != std::string::npos;
    error.message +=
        !asks_for_option
            ? ""
            : " (those options belong to `coatwright air import`: import the file, and plan "
              "without --air)";
    return pass_on(std::move(error), path);
  }
  for (AirEntry& entry : content->entries) {
    entry.origin = entry.at <= session.now ? AirOrigin::kLogger : AirOrigin::kForecast;
  }
  return std::move(content->entries);
}

/// @return how the wood was left.
Result<WoodSurface> look_up(const PieceNames& names, const RecipeBook& book, PieceRequest& piece) {
  auto surface = surface_of(names.species, names.surface, names.over, book);
  if (!surface) {
    return pass_on(surface.error());
  }
  piece.species = surface->species;
  const auto schedule = book.schedule_for(names.schedule, *surface);
  if (!schedule) {
    return pass_on(schedule.error());
  }
  piece.schedule = *schedule;
  if (surface->over != nullptr) {
    piece.over = ExistingFinish{surface->over, Time()};
  }
  piece.name = names.name;
  piece.area = names.area;
  piece.faces = names.faces;
  return surface->wood;
}

}  // namespace

bool rubs_out(const Schedule& schedule) {
  return std::any_of(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
    return step.kind == ScheduleStepKind::kRubOut;
  });
}

Time plan_horizon(Time by, bool rubs_out) {
  return by + (rubs_out ? kBeyondRubOut : kBeyondDate);
}

Result<double> plan_confidence(const PlanOptions& options) {
  return options.confidence.empty() ? Result<double>(PlanRequest{}.confidence)
                                    : parse_confidence(options.confidence);
}

Result<ShopTimes> plan_times(const PlanOptions& options, const Session& session) {
  ShopTimes times = session.shop.times_or_assumed();
  if (!options.hours.empty()) {
    auto parsed = WeekHours::parse(options.hours);
    if (!parsed) {
      return pass_on(parsed.error(), "--hours");
    }
    times.hours = std::move(*parsed);
  }
  return times;
}

Result<AirRecord> plan_air(const PlanOptions& options,
                           Time first,
                           Time horizon,
                           const Session& session) {
  if (!options.in_air.empty() && !options.air_file.empty()) {
    return fail(ErrorCode::kUsage,
                "give --air, a file, or --in-air, the same air all the time, but not both");
  }
  if (!options.in_air.empty()) {
    const auto air = parse_air(options.in_air);
    if (!air) {
      return pass_on(air.error(), "--in-air");
    }
    return AirRecord({}, UsualDay::constant(air->temperature, air->humidity), session.zone);
  }
  auto entries = session.store.air_entries(first - kAirBefore, horizon);
  if (!entries) {
    return pass_on(entries.error());
  }
  if (!options.air_file.empty()) {
    const auto more = entries_of_file(options.air_file, session);
    if (!more) {
      return pass_on(more.error());
    }
    entries->insert(entries->end(), more->begin(), more->end());
  }
  return AirRecord(std::move(*entries), session.shop.usual_day_or_assumed(), session.zone);
}

Result<std::optional<AirRecord>> outdoors_for(const PlanOptions& options,
                                              Time from,
                                              Time horizon,
                                              const Session& session) {
  if (!options.in_air.empty()) {
    return std::nullopt;
  }
  return session.outdoors(from - kAirBefore, horizon);
}

Result<PieceSurface> surface_of(const std::string& species,
                                const std::string& left,
                                const std::string& over,
                                const RecipeBook& book) {
  PieceSurface surface;
  if (!species.empty()) {
    const auto wood = book.species(species);
    if (!wood) {
      return pass_on(wood.error());
    }
    surface.species = *wood;
  }
  if (!left.empty()) {
    const auto wood = parse_wood_surface(left);
    if (!wood) {
      return pass_on(wood.error(), "--surface");
    }
    surface.wood = *wood;
  }
  if (!over.empty()) {
    const auto finish = book.finish_on_piece(over);
    if (!finish) {
      return pass_on(finish.error(), "--over");
    }
    surface.over = *finish;
  }
  return surface;
}

void settle_existing_finish(Time from, PieceRequest& piece) {
  if (piece.over) {
    const Time first = piece.log.empty() ? from : std::min(from, piece.log.front().at);
    piece.over->since = ExistingFinish::before(first);
  }
}

Result<PieceRequest> piece_request_of(const StoredPiece& piece, const RecipeBook& book) {
  PieceNames names;
  names.name = piece.name;
  names.schedule = piece.schedule;
  names.species = piece.species;
  names.area = piece.area;
  names.faces = faces_of(piece.faces);
  names.surface = piece.surface;
  names.over = piece.over.value_or("");
  PieceRequest request;
  if (const auto done = look_up(names, book, request); !done) {
    return pass_on(done.error());
  }
  return request;
}

Result<void> check_schedule(const PieceRequest& piece, const RecipeBook& book) {
  const Product* over = piece.over ? piece.over->product : nullptr;
  const auto findings = check_pairs(*piece.schedule, over, book);
  if (!findings) {
    return pass_on(findings.error(), "schedule " + piece.schedule->name);
  }
  const PairFinding* refused = first_refusal(*findings);
  if (refused == nullptr) {
    return {};
  }
  const PieceSurface surface{piece.species, {}, over};
  const std::string nearest = nearest_working_schedule(*piece.schedule, surface, book);
  return fail(ErrorCode::kNo,
              fmt::format("schedule {}, step {}: {}{}",
                          piece.schedule->name,
                          refused->step,
                          refusal_of(*refused),
                          nearest.empty() ? "; no schedule here works over that"
                                          : "; the nearest schedule that works: " + nearest));
}

Result<PreparedPlan> prepare_plan(const PlanOptions& options,
                                  const GlobalOptions& global,
                                  const Session& session) {
  const auto names = piece_names(options, session);
  if (!names) {
    return pass_on(names.error());
  }
  auto recipes = open_shop_recipes(global, session, options.as_labelled);
  if (!recipes) {
    return pass_on(recipes.error());
  }
  const RecipeBook* book = &recipes->book;
  PlanRequest request;
  const auto surface = look_up(*names, *book, request.piece);
  if (!surface) {
    return pass_on(surface.error());
  }
  if (const auto done = fill_times(options, *names, session, request); !done) {
    return pass_on(done.error());
  }
  const auto confidence = plan_confidence(options);
  if (!confidence) {
    return pass_on(confidence.error());
  }
  request.confidence = *confidence;
  request.room = session.shop.room;
  if (!options.wood_moisture.empty()) {
    const auto moisture = parse_wood_moisture(options.wood_moisture, "--wood-moisture");
    if (!moisture) {
      return pass_on(moisture.error());
    }
    request.piece.wood_moisture = *moisture;
  }
  PieceLog log;
  if (names->stored) {
    auto read = read_piece_log(*names->stored, *book, session);
    if (!read) {
      return pass_on(read.error());
    }
    log = std::move(*read);
    request.piece.log = log.works;
  }
  add_new(recipes->remarks, log.left_aside);
  settle_existing_finish(request.from, request.piece);
  const Time first =
      log.works.empty() ? request.from : std::min(request.from, log.works.front().at);
  auto air = plan_air(options, first, request.horizon, session);
  if (!air) {
    return pass_on(air.error());
  }
  return PreparedPlan{
      std::move(recipes->book), std::move(log), std::move(request), std::move(*air), *surface};
}

}  // namespace coatwright
