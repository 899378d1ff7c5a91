#include "cli/coat_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/content_hash.h"
#include "base/quantity_text.h"
#include "cli/can_age.h"
#include "cli/coat_verdict.h"
#include "cli/learned_shop.h"
#include "cli/log_call.h"
#include "cli/log_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `coat`, as typed; empty: not given.
struct CoatOptions {
  std::string piece;
  std::string product;
  LogOptions log;
  std::string amount;
  std::string batch;
  bool abraded = false;
  bool dry_run = false;
  bool as_labelled = false;
};

/// A coat with what it went on and the recipe that it is logged with.
struct PreparedCoat {
  LogEntry entry;
  std::vector<LogEntry> beneath;
  std::optional<std::string> came_in_with;  ///< A product; none: it was bare wood.
  std::string product_text;
  std::vector<std::string> cautions;  ///< Of its cans, and of the room.
};

/// Whether a coat must say which face it is on: some of what it is on has two, coated in turn.
bool needs_face(const StoredPiece& piece) {
  return piece.units.empty()
             ? piece.faces == PieceFaces::kTwo
             : std::any_of(piece.units.begin(), piece.units.end(), [](const StoredUnit& unit) {
                 return unit.faces == PieceFaces::kTwo;
               });
}

/// On points both faces are coated in one session; of two coated in turn it must be said which.
Result<std::string> face_meant(const std::string& face, const StoredPiece& piece) {
  if (face.empty() && needs_face(piece)) {
    return fail(ErrorCode::kUsage,
                "the piece has two faces: say on which the coat went, --face front, back or both");
  }
  return face.empty() && piece.faces == PieceFaces::kOnPoints ? "both" : face;
}

Result<LogEntry> entry_from(const CoatOptions& options,
                            const StoredPiece& piece,
                            const Session& session) {
  auto entry = begun_entry(piece, options.log, session);
  if (!entry) {
    return entry;
  }
  const auto face = face_meant(options.log.face, piece);
  if (!face) {
    return pass_on(face.error());
  }
  if (!options.amount.empty()) {
    const auto amount = parse_volume(options.amount);
    if (!amount) {
      return pass_on(amount.error(), "--amount");
    }
    entry->amount = *amount;
  }
  entry->kind = LogKind::kCoat;
  entry->step = "apply";
  entry->product = options.product;
  entry->face = *face;
  entry->batch = options.batch;
  entry->abraded = options.abraded;
  return entry;
}

std::vector<std::string> cautions_of(std::string on_cans,
                                     const Product& product,
                                     const FinishingRoom& room) {
  std::vector<std::string> cautions;
  if (!on_cans.empty()) {
    cautions.push_back(std::move(on_cans));
  }
  if (product.hazards.flammable && !room.ignition.empty()) {
    cautions.push_back(fmt::format(
        "its vapour ignites, and in the finishing room there is: {}. Out with it, or off "
        "for good, before the can is opened",
        room.ignition));
  }
  return cautions;
}

Result<PreparedCoat> prepare_coat(const CoatOptions& options,
                                  const RecipeBook& book,
                                  const Session& session) {
  auto piece = session.store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  const auto unit = unit_meant(*piece, options.log.part);
  if (!unit) {
    return pass_on(unit.error());
  }
  if (*unit != nullptr) {
    piece = piece->only(StoredUnit(**unit));
  }
  const auto product = book.product(options.product);
  if (!product) {
    return pass_on(product.error());
  }
  auto text = book.product_text(options.product);
  if (!text) {
    return pass_on(text.error());
  }
  auto entry = entry_from(options, *piece, session);
  if (!entry) {
    return pass_on(entry.error());
  }
  const auto log = session.store.log(piece->name);
  if (!log) {
    return pass_on(log.error());
  }
  auto judged = judge_by_log(*entry, *piece, *log, book, session);
  if (!judged) {
    return pass_on(judged.error());
  }
  auto on_cans = caution_on_cans(session.store, **product, options.batch, entry->at);
  if (!on_cans) {
    return pass_on(on_cans.error());
  }
  entry->revision = content_hash(*text);
  entry->air = judged->air;
  entry->findings = std::move(judged->findings);
  return PreparedCoat{std::move(*entry),
                      std::move(judged->beneath),
                      piece->over,
                      std::move(*text),
                      cautions_of(std::move(*on_cans), **product, session.shop.room)};
}

std::string beneath_words(const PreparedCoat& on, const Zone& zone) {
  if (on.beneath.empty()) {
    return on.came_in_with ? fmt::format("over {}, with which it came in", *on.came_in_with)
                           : "on wood, as far as the log knows";
  }
  std::string text;
  for (const LogEntry& coat : on.beneath) {
    text += fmt::format("{}over entry {}, {}, {}",
                        text.empty() ? "" : "; ",
                        coat.id,
                        deed_of(coat),
                        show_full(coat.at, zone));
  }
  return text;
}

std::string as_text(const PreparedCoat& coat, const CoatOptions& options, const Session& session) {
  const LogEntry& entry = coat.entry;
  const std::string head = options.dry_run
                               ? fmt::format("Not logged, only asked, for {}", entry.piece)
                               : fmt::format("Logged entry {} for {}", entry.id, entry.piece);
  const auto line = [](const std::string& words) { return wrap(words, 2, 4); };
  std::string cautions;
  for (const std::string& caution : coat.cautions) {
    cautions += line(caution);
  }
  return wrap(fmt::format("{}: {}, {}.", head, deed_of(entry), show_full(entry.at, session.zone)),
              0,
              2) +
         line(beneath_words(coat, session.zone)) + line(air_words(*entry.air, session.units)) +
         line("revision " + entry.revision) + findings_as_text(entry, session, 2) + cautions;
}

std::string as_json(const PreparedCoat& coat, const CoatOptions& options, const Session& session) {
  nlohmann::ordered_json over = nlohmann::ordered_json::array();
  for (const LogEntry& each : coat.beneath) {
    over.push_back(each.id);
  }
  nlohmann::ordered_json entry = entry_as_json(coat.entry, session);
  if (options.dry_run) {
    entry["number"] = nullptr;
  }
  nlohmann::ordered_json page = {{"logged", !options.dry_run}, {"over", over}, {"entry", entry}};
  if (!coat.cautions.empty()) {
    page["cautions"] = coat.cautions;
  }
  return json_page(page);
}

void print_coat(const PreparedCoat& coat, const CoatOptions& options, const Session& session) {
  print_out(session.json ? as_json(coat, options, session) : as_text(coat, options, session));
}

Result<ExitCode> run_coat(const CoatOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto recipes = open_shop_recipes(global, *session, options.as_labelled);
  if (!recipes) {
    return pass_on(recipes.error());
  }
  auto coat = prepare_coat(options, recipes->book, *session);
  if (!coat) {
    return pass_on(coat.error());
  }
  if (options.dry_run) {
    print_coat(*coat, options, *session);
    return coat->entry.findings.front().kind == "in window" ? ExitCode::kDone : ExitCode::kNo;
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto id = session->store.log_coat(coat->entry, coat->product_text);
  if (!id) {
    return pass_on(id.error());
  }
  coat->entry.id = *id;
  print_coat(*coat, options, *session);
  return ExitCode::kDone;
}

}  // namespace

void add_coat(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("coat", "Log a coat as applied, and judge its moment");
  auto options = std::make_shared<CoatOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_option("product", options->product, "What went on, as `product list` shows it")
      ->required()
      ->type_name("");
  add_log_options(*command, options->log);
  command->add_option("--amount", options->amount, "How much was used: 0.2L, 200ml, 1qt")
      ->type_name("AMOUNT");
  command->add_option("--batch", options->batch, "Of the can or the mix")->type_name("BATCH");
  command->add_flag("--abraded", options->abraded, "The face was abraded before it");
  command->add_flag("--dry-run", options->dry_run, "Say the verdict, and log nothing");
  command->add_flag("--as-labelled",
                    options->as_labelled,
                    "Judge it without what this shop's touch tests have taught");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_coat(*options, global); }; });
}

}  // namespace coatwright
