#include "cli/watch_command.h"

#include <csignal>
#include <ctime>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

#include "cli/now_bench.h"
#include "cli/search_watch.h"
#include "cli/watch_events.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using std::chrono::milliseconds;

/// The options of `watch`, as typed.
struct WatchOptions {
  std::string every = "1min";
  int looks = 0;  ///< 0: until it is ended.
  bool as_labelled = false;
};

/// Ctrl-C and the terminal's end, taken while we wait for them and at no other moment: a look is
/// never cut short.
class EndSignals {
 public:
  EndSignals() {
    sigemptyset(&signals_);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
      sigaddset(&signals_, signal);
    }
    sigprocmask(SIG_BLOCK, &signals_, &before_);
  }
  ~EndSignals() { sigprocmask(SIG_SETMASK, &before_, nullptr); }
  EndSignals(const EndSignals&) = delete;
  EndSignals& operator=(const EndSignals&) = delete;

  /// @return whether one came within this time.
  [[nodiscard]] bool came_within(milliseconds time) const {
    const auto whole = std::chrono::duration_cast<std::chrono::seconds>(time);
    const timespec limit{static_cast<time_t>(whole.count()),
                         static_cast<long>((time - whole).count()) * 1'000'000L};
    return sigtimedwait(&signals_, nullptr, &limit) > 0;
  }

 private:
  sigset_t signals_ = {};
  sigset_t before_ = {};
};

/// One look at the shop.
struct ShopLook {
  Time at;
  std::vector<PieceNow> pieces;
};

class Watch {
 public:
  Watch(const WatchOptions& options, const GlobalOptions& global)
      : options_(options), global_(global), begun_(std::chrono::steady_clock::now()) {}

  /// Looks, prints, and rings where something has opened or is about to close.
  Result<void> look() {
    auto session = open_session(global_, Store::Mode::kRead);
    if (!session) {
      return pass_on(session.error());
    }
    if (!global_.at_clock.empty()) {  // from there on time passes as usual
      session->now += std::chrono::duration_cast<std::chrono::seconds>(
          std::chrono::steady_clock::now() - begun_);
    }
    const auto pieces = session->store.pieces();
    if (!pieces) {
      return pass_on(pieces.error());
    }
    const auto bench = now_bench(*pieces, global_, *session, options_.as_labelled);
    if (!bench) {
      return pass_on(bench.error());
    }
    auto answer = now_answer(*bench, *session);
    if (!answer) {
      return pass_on(answer.error());
    }
    const auto events = watch_events(last_ ? &last_->pieces : nullptr,
                                     last_ ? last_->at : session->now,
                                     answer->pieces,
                                     session->now,
                                     session->zone);
    show(now_text(*answer, *bench, *session), events);
    last_ = ShopLook{session->now, std::move(answer->pieces)};
    return {};
  }

 private:
  static void show(const std::string& page, const std::vector<std::string>& events) {
    constexpr std::string_view kClearScreen = "\x1b[H\x1b[2J";
    std::string text = isatty(STDOUT_FILENO) == 1 ? std::string(kClearScreen) : "";
    for (const std::string& event : events) {
      text += wrap(event, "* ", "  ");
    }
    text += (events.empty() ? "" : "\a\n") + page;
    print_out(text + "\nLooks again by itself; Ctrl-C ends it.\n");
    std::fflush(stdout);
  }

  const WatchOptions& options_;
  const GlobalOptions& global_;
  std::chrono::steady_clock::time_point begun_;
  std::optional<ShopLook> last_;
};

Result<ExitCode> run_watch(const WatchOptions& options, const GlobalOptions& global) {
  if (global.json) {
    return fail(ErrorCode::kUsage, "watch is for a terminal: `now --json` gives the same as JSON");
  }
  const auto every = parse_span("--every", options.every);
  if (!every) {
    return pass_on(every.error());
  }
  const EndSignals end;
  Watch watch(options, global);
  for (int looks = 1;; ++looks) {
    if (const auto looked = watch.look(); !looked) {
      return pass_on(looked.error());
    }
    if (looks == options.looks || end.came_within(*every)) {
      return ExitCode::kDone;
    }
  }
}

}  // namespace

void add_watch(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      app.add_subcommand("watch", "Keep what may be done now on the terminal, and ring for it");
  auto options = std::make_shared<WatchOptions>();
  command->add_option("--every", options->every, "How often to look: 30s, 1min [1min]")
      ->type_name("SPAN");
  command->add_option("--looks", options->looks, "End after so many looks [until Ctrl-C]")
      ->type_name("N")
      ->check(CLI::Range(1, 1'000'000));
  command->add_flag(
      "--as-labelled", options->as_labelled, "Set aside what this shop's touch tests have taught");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_watch(*options, global); }; });
}

}  // namespace coatwright
