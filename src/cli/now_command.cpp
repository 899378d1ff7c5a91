#include "cli/now_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <date/date.h>
#include <fmt/format.h>

#include "cli/now_bench.h"
#include "cli/step_words.h"
#include "report/now_page.h"
#include "report/plan_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

struct NowOptions {
  std::string piece;
  std::vector<std::string> step;
  bool as_labelled = false;
};

Result<std::optional<AskedStep>> asked_step(const NowOptions& options, const RecipeBook& book) {
  if (options.step.empty()) {
    return std::nullopt;
  }
  const auto steps = parse_steps(options.step, true, book);
  if (!steps) {
    return pass_on(steps.error());
  }
  if (steps->size() > 1) {
    return fail(ErrorCode::kUsage, "ask about one step at a time");
  }
  const NamedStep& step = steps->front();
  AskedStep asked{*step_kind_named(step.kind), step.grit, nullptr};
  if (!step.product.empty()) {
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    asked.product = *product;
  }
  return asked;
}

/// Whether the step asked about may be done; without one, whether any may.
bool is_yes(const std::vector<PieceNow>& pieces, const std::optional<AskedStep>& asked) {
  for (const PieceNow& piece : pieces) {
    for (const StepNow& step : piece.steps) {
      const bool may =
          step.readiness == Readiness::kMayBeDone || step.readiness == Readiness::kOpen;
      const bool meant =
          !asked || (step.kind == asked->kind &&
                     (asked->product == nullptr || step.product == asked->product->name));
      if (may && meant) {
        return true;
      }
    }
  }
  return false;
}

void print_answer(const NowAnswer& answer, const NowBench& bench, const Session& session) {
  print_out(session.json
                ? now_as_json({session.now, answer.air, answer.pieces, session.zone, session.units})
                : now_text(answer, bench, session));
}

Result<std::vector<StoredPiece>> pieces_meant(const NowOptions& options, const Session& session) {
  if (!options.piece.empty()) {
    return session.store.piece(options.piece).map([](const StoredPiece& one) {
      return std::vector{one};
    });
  }
  auto pieces = session.store.pieces();
  if (pieces && pieces->empty()) {
    return fail(ErrorCode::kUsage, "no piece is stored; add one with `coatwright piece add`");
  }
  return pieces;
}

Result<ExitCode> run_now(const NowOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto meant = pieces_meant(options, *session);
  if (!meant) {
    return pass_on(meant.error());
  }
  // All pieces stand in one room: the dust of one settles on the film of another.
  const auto all = session->store.pieces();
  if (!all) {
    return pass_on(all.error());
  }
  auto bench = now_bench(*all, global, *session, options.as_labelled);
  if (!bench) {
    return pass_on(bench.error());
  }
  const auto asked = asked_step(options, bench->book);
  if (!asked) {
    return pass_on(asked.error());
  }
  bench->request.asked = *asked;
  auto answer = now_answer(*bench, *session);
  if (!answer) {
    return pass_on(answer.error());
  }
  std::erase_if(answer->pieces, [&](const PieceNow& one) {
    return std::none_of(meant->begin(), meant->end(), [&](const auto& piece) {
      return piece.name == bench->pieces_of.at(one.piece);
    });
  });
  print_answer(*answer, *bench, *session);
  return is_yes(answer->pieces, *asked) ? ExitCode::kDone : ExitCode::kNo;
}

constexpr std::string_view kHowToBegin =
    "coatwright plans and keeps the finishing of furniture. No piece is stored yet.\n"
    "\n"
    "To begin:\n"
    "  coatwright shop set --hours \"Mon-Fri 8:00-17:00\" \\\n"
    "    --usual-day \"7:00 19C 50%; 22:00 15C 60%\"   hours and air of the shop\n"
    "  coatwright schedule list                       finishes to choose from\n"
    "  coatwright piece add \"hall bench\" --schedule stain-and-lacquer \\\n"
    "    --species white-ash --area 1.9m2 --by \"Sun 20:00\"\n"
    "  coatwright plan                                the calendar of its finish\n"
    "  coatwright safety                              the sheet for the wall\n"
    "\n"
    "`coatwright --help` lists all commands.\n";

/// What the plan that was kept of each piece has for this day.
Result<std::string> planned_today(const std::vector<StoredPiece>& pieces, const Session& session) {
  const auto day_of = [&](Time time) {
    return date::floor<date::days>(session.zone.to_local(time));
  };
  std::string text;
  for (const StoredPiece& piece : pieces) {
    const auto kept = session.store.kept_plan(piece.name);
    if (!kept) {
      return pass_on(kept.error());
    }
    if (!*kept) {
      continue;
    }
    for (const KeptStep& step : (*kept)->steps) {
      if (day_of(step.start) != day_of(session.now)) {
        continue;
      }
      StepNow as_asked;
      as_asked.kind = step.kind;
      as_asked.face = step.face;
      as_asked.product_title = step.product_title;
      as_asked.coat = step.coat;
      as_asked.grit = step.grit;
      text += wrap(fmt::format("{} ({})", sentence_of(as_asked), piece.name),
                   padded("  " + show_clock(shown_minute(step.start), session.zone), 9),
                   std::string(9, ' '));
    }
  }
  return text.empty() ? "" : "\n" + underlined("By the last plan, today", '-') + text;
}

}  // namespace

Result<ExitCode> show_today(const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto pieces = session->store.pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  if (pieces->empty()) {
    print_out(std::string(kHowToBegin));
    return ExitCode::kDone;
  }
  const auto bench = now_bench(*pieces, global, *session, false);
  if (!bench) {
    return pass_on(bench.error());
  }
  const auto answer = now_answer(*bench, *session);
  if (!answer) {
    return pass_on(answer.error());
  }
  print_answer(*answer, *bench, *session);
  if (!session->json) {
    const auto planned = planned_today(*pieces, *session);
    if (!planned) {
      return pass_on(planned.error());
    }
    print_out(*planned);
  }
  return ExitCode::kDone;
}

void add_now(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* now = app.add_subcommand("now", "Say what may be done now, what not yet, and why");
  auto options = std::make_shared<NowOptions>();
  now->add_option("piece", options->piece, "A stored piece; all of them when left out")
      ->type_name("");
  now->add_option("step",
                  options->step,
                  "A step to ask about, by a plan's word: sand P150, apply dewaxed-shellac, flip")
      ->type_name("");
  now->add_flag(
      "--as-labelled", options->as_labelled, "Set aside what this shop's touch tests have taught");
  now->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_now(*options, global); }; });
}

}  // namespace coatwright
