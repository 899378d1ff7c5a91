#include "plan/stage_lags.h"

namespace coatwright {
namespace {

constexpr std::size_t kMinutesOfWeek = 7 * 24 * 60;

bool is_same(const StageTiming& a, const StageTiming& b) {
  return std::equal(a.phases.begin(),
                    a.phases.end(),
                    b.phases.begin(),
                    b.phases.end(),
                    [](const Phase& one, const Phase& other) {
                      return one.law == other.law && one.duration == other.duration;
                    });
}

bool is_same(const std::optional<StageTiming>& a, const std::optional<StageTiming>& b) {
  return a && b ? is_same(*a, *b) : !a && !b;
}

/// A value for each minute, reckoned when it is first asked for. The clocks that all values are
/// reckoned from remember too: one thread at a time looks at any of them.
template <class Value>
class MinuteMemo {
 public:
  explicit MinuteMemo(std::mutex& at_work) : at_work_(at_work) {}

  template <class Reckon>
  Value at(Tick minute, Reckon reckon) {
    const std::scoped_lock lock(at_work_);
    if (minute < 0) {
      return reckon();  // before the plan: asked for a few times at most
    }
    const auto place = static_cast<std::size_t>(minute);
    if (place >= values_.size()) {
      values_.resize(place + kMinutesOfWeek);
    }
    auto& value = values_[place];
    if (!value) {
      value = reckon();
    }
    return *value;
  }

 private:
  std::mutex& at_work_;
  std::vector<std::optional<Value>> values_;
};

}  // namespace

/// When a stage opens, by the minute at which its drying began.
class StageLags::OpeningTable {
 public:
  OpeningTable(const StageLags& lags, StageTiming timing, std::optional<Temperature> gate)
      : lags_(lags), timing_(std::move(timing)), gate_(gate), memo_(lags.at_work_) {}

  [[nodiscard]] bool is_for(const StageTiming& timing, std::optional<Temperature> gate) const {
    return gate_ == gate && is_same(timing_, timing);
  }
  Tick at(Tick ended) {
    return memo_.at(ended, [&] { return lags_.opens(timing_, gate_, lags_.ticks_.time(ended)); });
  }

 private:
  const StageLags& lags_;
  StageTiming timing_;
  std::optional<Temperature> gate_;
  MinuteMemo<Tick> memo_;
};

/// The window over a coat, by the start of that coat's session.
class StageLags::WindowTable {
 public:
  WindowTable(const StageLags& lags, RecoatChoice choice, const WindowOffsets& offsets)
      : lags_(lags), choice_(std::move(choice)), offsets_(offsets), memo_(lags.at_work_) {}

  [[nodiscard]] bool is_for(const RecoatChoice& choice, const WindowOffsets& offsets) const {
    return offsets_ == offsets && choice_.coat.gate() == choice.coat.gate() &&
           is_same(choice_.opening, choice.opening) && is_same(choice_.closing, choice.closing);
  }
  WindowTicks at(Tick start) {
    return memo_.at(start, [&] {
      choice_.coat.begun = lags_.ticks_.time(start + offsets_.begun);
      choice_.coat.ended = lags_.ticks_.time(start + offsets_.ended);
      return lags_.window_over(choice_, offsets_.applied, offsets_.stroke);
    });
  }

 private:
  const StageLags& lags_;
  RecoatChoice choice_;
  WindowOffsets offsets_;
  MinuteMemo<WindowTicks> memo_;
};

class StageLags::OpeningLag : public LagFunction {
 public:
  OpeningLag(std::shared_ptr<OpeningTable> table, Tick ended, Tick before)
      : table_(std::move(table)), ended_(ended), before_(before) {}

  [[nodiscard]] Tick at(Tick start) const override {
    const Tick opens = table_->at(start + ended_);
    return opens == kNeverTick ? kNeverTick : opens - before_;
  }

 private:
  std::shared_ptr<OpeningTable> table_;
  Tick ended_;
  Tick before_;
};

class StageLags::WindowLag : public LagFunction {
 public:
  WindowLag(std::shared_ptr<WindowTable> table, bool is_last)
      : table_(std::move(table)), is_last_(is_last) {}

  [[nodiscard]] Tick at(Tick start) const override {
    const WindowTicks window = table_->at(start);
    return is_last_ ? window.last : window.first;
  }

 private:
  std::shared_ptr<WindowTable> table_;
  bool is_last_;
};

std::shared_ptr<StageLags::OpeningTable> StageLags::table_for(const StageTiming& timing,
                                                              std::optional<Temperature> gate) {
  for (const auto& table : openings_) {
    if (table->is_for(timing, gate)) {
      return table;
    }
  }
  openings_.push_back(std::make_shared<OpeningTable>(*this, timing, gate));
  return openings_.back();
}

Lag StageLags::opening(const StageTiming& timing,
                       std::optional<Temperature> gate,
                       Tick ended,
                       Tick before) {
  return {0, std::make_shared<OpeningLag>(table_for(timing, gate), ended, before)};
}

StageLags::WindowLags StageLags::window(const RecoatChoice& choice, const WindowOffsets& offsets) {
  if (!choice.closing) {
    return {opening(choice.opening, choice.coat.gate(), offsets.ended, offsets.applied),
            std::nullopt};
  }
  std::shared_ptr<WindowTable> table;
  for (const auto& known : windows_) {
    table = known->is_for(choice, offsets) ? known : table;
  }
  if (!table) {
    table = std::make_shared<WindowTable>(*this, choice, offsets);
    windows_.push_back(table);
  }
  return {{0, std::make_shared<WindowLag>(table, false)},
          Lag{0, std::make_shared<WindowLag>(table, true)}};
}

Tick StageLags::opens(const StageTiming& timing,
                      std::optional<Temperature> gate,
                      Time ended) const {
  const auto at = CoatProgress(clocks_, ended, gate).opens(timing, rule_.deviate, rule_.horizon);
  return at ? ticks_.not_before(*at) : kNeverTick;
}

/// The chance to be inside rises until the opening is sure and then falls: the starts at which it
/// reaches the confidence are one stretch.
WindowTicks StageLags::window_over(RecoatChoice choice, Tick applied, Tick stroke) const {
  const Tick opens = this->opens(choice.opening, choice.coat.gate(), choice.coat.ended);
  if (opens == kNeverTick) {
    return {kNeverTick, kNeverTick};
  }
  const Tick first = grain_up(opens - applied);
  if (!choice.closing) {
    return {first, kNeverTick};
  }
  const Time closes =
      choice.coat.since_begin(clocks_).closes(*choice.closing, -rule_.deviate, rule_.horizon);
  const Tick last = grain_down(ticks_.not_after(closes) - stroke - applied);
  const auto is_inside = [&](Tick start) {
    return chance_in_window(choice, ticks_.time(start + applied), clocks_) >= confidence_;
  };
  WindowTicks window{first, last};
  while (window.first <= last && !is_inside(window.first)) {
    window.first += kGrainTicks;
  }
  if (window.first > last) {
    return {first, first - kGrainTicks};  // no moment is sure enough
  }
  if (is_inside(last)) {
    return window;
  }
  Tick inside = window.first;
  while (window.last - inside > kGrainTicks) {
    const Tick middle = grain_down(inside + (window.last - inside) / 2);
    (is_inside(middle) ? inside : window.last) = middle;
  }
  window.last = inside;
  return window;
}

}  // namespace coatwright
