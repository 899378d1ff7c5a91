#include "cli/why_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "cli/fault_case.h"
#include "cli/log_call.h"
#include "report/fault_page.h"

namespace coatwright {
namespace {

// The air until a film is past its critical stage, and the hours after a coat, lie within this.
constexpr std::chrono::hours kLookAhead{24 * 28 + 1};

/// The options of `why`, as typed; empty: not given.
struct WhyOptions {
  std::string piece;
  std::string defect;
  std::string part;
  std::string face;
};

/// The air from the first entry on; of any span where there is none.
Result<AirRecord> air_for(const FaultCase& piece, const Session& session) {
  const Time from = piece.works.empty() ? session.now : piece.works.front().at;
  return session.air(from, std::max(from, session.now) + kLookAhead);
}

/// How many coats the log has, and how many of them may have the defect.
void count_coats(const FaultCase& piece, FaultAnswer& answer) {
  for (const TracedWork& work : piece.works) {
    if (work.product != nullptr) {
      ++answer.coats;
      answer.befallen += answer.defect->befalls(*work.product) ? 1 : 0;
    }
  }
}

Result<ExitCode> run_why(const WhyOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto defect = book->defect(options.defect);
  if (!defect) {
    return pass_on(defect.error());
  }
  const auto piece = session->store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  if (const auto unit = unit_meant(*piece, options.part); !unit) {
    return pass_on(unit.error());
  }
  const auto log = read_fault_case(*piece, options.part, options.face, *book, *session);
  if (!log) {
    return pass_on(log.error());
  }
  const auto air = air_for(log->piece, *session);
  if (!air) {
    return pass_on(air.error());
  }
  FaultAnswer answer;
  answer.piece = piece->name;
  answer.part = options.part;
  answer.face = options.face;
  answer.defect = *defect;
  answer.suspects = trace_fault(**defect, log->piece, *air);
  count_coats(log->piece, answer);
  print_out(session->json ? fault_as_json(answer, session->zone)
                          : show_fault(answer, session->zone));
  return answer.suspects.empty() ? ExitCode::kNo : ExitCode::kDone;
}

}  // namespace

void add_why(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      app.add_subcommand("why", "Say where a defect of a piece may come from, as its log has it");
  auto options = std::make_shared<WhyOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_option("defect", options->defect, "What is wrong with it, such as blush")
      ->required()
      ->type_name("");
  command->add_option("--part", options->part, "Part of the piece, such as top [all of it]")
      ->type_name("PART");
  command->add_option("--face", options->face, "front, back or both [all of them]")
      ->check(CLI::IsMember({"front", "back", "both"}))
      ->type_name("FACE");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_why(*options, global); }; });
}

}  // namespace coatwright
