#include "cli/touch_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "cli/learned_shop.h"
#include "cli/log_call.h"
#include "cli/touch_answer.h"

namespace coatwright {
namespace {

/// The options of `touch`, as typed; empty: not given.
struct TouchOptions {
  std::string piece;
  std::vector<std::string> words;
  LogOptions log;
};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : " ") + word;
  }
  return text;
}

Result<PreparedTouch> prepare_touch(const TouchOptions& options,
                                    const RecipeBook& book,
                                    const Session& session) {
  const std::string words = joined(options.words);
  const auto finding = touch_finding_named(words);
  if (!finding) {
    return pass_on(finding.error());
  }
  auto piece = session.store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  auto entry = begun_finding(LogKind::kTouch, *piece, options.log, session);
  if (!entry) {
    return pass_on(entry.error());
  }
  entry->touch = LoggedTouch{words, finding->stage, finding->reached};
  auto log = session.store.log(piece->name);
  if (!log) {
    return pass_on(log.error());
  }
  const auto beneath = coat_tested(*entry, *piece, *log, session.zone);
  if (!beneath) {
    return pass_on(beneath.error());
  }
  auto times = stage_times(*beneath, finding->stage, *piece, book, session);
  if (!times) {
    return pass_on(times.error());
  }
  return PreparedTouch{
      std::move(*entry), *finding, std::move(*piece), std::move(*log), *beneath, *times};
}

/// What the shop knows with this test. @param book its products as labelled.
Result<TaughtByTouch> taught_by(const PreparedTouch& touch,
                                const RecipeBook& book,
                                const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto learned = learn_shop(book, *session);
  if (!learned) {
    return pass_on(learned.error());
  }
  TaughtByTouch taught;
  for (const CoatLeftAside& aside : learned->left_aside) {
    taught.left_aside += aside.coat == touch.beneath.coat->id ? aside.why : "";
  }
  const auto product = book.product(touch.beneath.coat->product);
  for (const PacedStage& stage :
       product ? paced_stages(**product, learned->paces) : std::vector<PacedStage>()) {
    const bool is_tested = stage.stage == touch.finding.stage;
    if (is_tested || (stage.stage == Stage::kRecoat && !taught.pace)) {
      taught.pace = stage;
    }
  }
  return taught;
}

Result<ExitCode> run_touch(const TouchOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  auto touch = prepare_touch(options, *book, *session);
  if (!touch) {
    return pass_on(touch.error());
  }
  if (const auto kept = keep_entry(touch->entry, global); !kept) {
    return pass_on(kept.error());
  }
  const auto contradictions = contradictions_with(touch->entry, touch->piece, touch->log);
  const auto taught = taught_by(*touch, *book, global);
  if (!taught) {
    return pass_on(taught.error());
  }
  print_out(session->json ? touch_as_json(*touch, contradictions, *taught, *session)
                          : touch_as_text(*touch, contradictions, *taught, *session));
  return ExitCode::kDone;
}

}  // namespace

void add_touch(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("touch", "Log what a touch test found of a coat");
  auto options = std::make_shared<TouchOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_option("words", options->words, "What was found: tacky, sands to powder, hard ...")
      ->required()
      ->type_name("");
  add_log_options(*command, options->log);
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_touch(*options, global); }; });
}

}  // namespace coatwright
