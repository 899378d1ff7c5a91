#pragma once

#include <algorithm>
#include <memory>
#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// The starts of a set, numbered from 0 without holes, with tables for both ways.
class StartNumbering {
 public:
  /// @param earliest,latest further limits.
  StartNumbering(const StartSet& set, Tick grain, Tick earliest, Tick latest);

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] Tick grain() const { return grain_; }
  [[nodiscard]] Tick first() const { return first_; }
  [[nodiscard]] Tick tick_of(int number) const {
    return ticks_.empty() ? first_ + number * grain_ : ticks_[static_cast<std::size_t>(number)];
  }
  /// @return the starts by number; null where each is the first plus its number of grains.
  [[nodiscard]] const Tick* ticks() const { return ticks_.empty() ? nullptr : ticks_.data(); }
  /// @return the number of the first start that is not before a moment; size() when there is none.
  [[nodiscard]] int up(Tick tick) const {
    if (tick <= first_) {
      return 0;
    }
    if (tick > last_) {
      return size_;
    }
    const int step = (tick - first_ + grain_ - 1) / grain_;
    return ticks_.empty() ? step : numbers_[static_cast<std::size_t>(step)];
  }

 private:
  Tick grain_;
  int size_ = 0;
  Tick first_ = 0;
  Tick last_ = -1;
  std::vector<Tick> ticks_;   ///< By number; empty where no start is left out.
  std::vector<int> numbers_;  ///< Per grain from first_ on: of the first start not before it.
};

/// The starts that one activity may have, numbered from 0 without holes: a search over these
/// numbers never meets closed hours.
class StartDomain {
 public:
  /// @param set its starts. @param earliest,latest further limits.
  StartDomain(const StartSet& set, Tick grain, Tick earliest, Tick latest)
      : StartDomain(
            std::make_shared<StartNumbering>(set, grain, earliest, latest), earliest, latest) {}
  StartDomain(std::shared_ptr<const StartNumbering> numbering, Tick earliest, Tick latest)
      : numbering_(std::move(numbering)),
        begin_(numbering_->up(earliest)),
        size_(std::max(0, numbering_->up(latest + 1) - begin_)),
        ticks_(numbering_->ticks()),
        first_(numbering_->first()),
        grain_(numbering_->grain()) {}

  /// @param barred per index, and one more: whether the start is left out.
  [[nodiscard]] StartDomain without(const std::vector<char>& barred) const;

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] Tick tick_of(int index) const {
    return ticks_ != nullptr ? ticks_[begin_ + index] : first_ + (begin_ + index) * grain_;
  }
  /// The number of a start in the numbering.
  [[nodiscard]] int number_of(int index) const {
    return chosen_ ? chosen_->numbers[static_cast<std::size_t>(index)] : begin_ + index;
  }
  /// @return the first index whose start is not before a moment; size() when there is none.
  [[nodiscard]] int index_up(Tick tick) const {
    if (chosen_) {
      const int step = std::clamp(numbering_->up(tick) - chosen_->begin, 0, chosen_->size);
      return chosen_->indices[static_cast<std::size_t>(step)];
    }
    return std::clamp(numbering_->up(tick) - begin_, 0, size_);
  }
  /// @return the last index whose start is not after a moment; -1 when there is none.
  [[nodiscard]] int index_down(Tick tick) const { return index_up(tick + 1) - 1; }

 private:
  /// Which of the numbering's starts are in the domain, where they do not follow each other.
  struct Chosen {
    int begin = 0;             ///< Number of the first that was looked at,
    int size = 0;              ///< and how many were.
    std::vector<int> indices;  ///< Per start looked at and one more: of the first not before it.
    std::vector<int> numbers;  ///< By index.
    std::vector<Tick> ticks;   ///< By index.
  };

  std::shared_ptr<const StartNumbering> numbering_;
  std::shared_ptr<const Chosen> chosen_ = nullptr;
  int begin_;  ///< Number of the first that is in the domain; 0 where it has chosen ones.
  int size_;
  // Of the numbering, at hand: no question is asked more often.
  const Tick* ticks_;
  Tick first_;
  Tick grain_;
};

}  // namespace coatwright
