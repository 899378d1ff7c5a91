#include "recipe/label_stages.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kGrid = 1e-6;     // hours: what a recipe's file keeps of a figure
constexpr double kLeast = 0.01;    // hours: of a last phase that the label leaves nothing for
constexpr double kMost = 5000.0;   // hours that a recipe can hold
constexpr double kResidue = 1e-7;  // hours: of adding up phases

/// Hours at the two ends of a range; plain numbers, because they are weighed and compared here.
struct Ends {
  double low = 0;
  double high = 0;

  friend Ends operator+(Ends a, Ends b) { return {a.low + b.low, a.high + b.high}; }
  friend Ends operator-(Ends a, Ends b) { return {a.low - b.low, a.high - b.high}; }
  friend Ends operator*(Ends a, double factor) { return {a.low * factor, a.high * factor}; }
};

Ends ends_of(const DurationRange& range) {
  return {range.low().hours(), range.high().hours()};
}

DurationRange range_of(Ends ends) {
  return {Hours::from_hours(ends.low), Hours::from_hours(ends.high)};
}

/// Rounded up, so that nothing opens earlier; the small part keeps a whole step a whole step.
Ends on_grid(Ends ends) {
  const auto up = [](double hours) { return std::ceil(hours / kGrid - 1e-4) * kGrid; };
  return {up(ends.low), std::max(up(ends.low), up(ends.high))};
}

/// A stage's last phase, and the stage that its earlier phases are those of.
struct Node {
  Stage stage = Stage::kRecoat;
  std::optional<std::size_t> parent;
  Ends in_class;              ///< Whole, at the reference.
  Ends own;                   ///< Last phase, at the reference.
  double rate = 1;            ///< Of the last phase in the label's air.
  std::optional<Ends> given;  ///< In the label's air.
  bool carries = false;       ///< A stage of the label's begins with its phases.
  bool scaled = false;
};

class Reckoning {
 public:
  Reckoning(const Product& product,
            const std::vector<StageLink>& links,
            const std::map<Stage, HoursRange>& given,
            const TemperatureAndHumidity& air) {
    for (const StageLink& link : links) {
      add(product.stages.at(link.stage).timing, link, given, air);
    }
    for (const Node& node : nodes_) {
      if (node.given) {
        each_ancestor(node, [](Node& ancestor) { ancestor.carries = true; });
      }
    }
  }

  std::map<Stage, LabelledStage> run() {
    make_room();
    take_label();
    scale_what_contradicts();
    keep_between();
    std::map<Stage, LabelledStage> stages;
    for (const Node& node : nodes_) {
      stages.insert_or_assign(
          node.stage, LabelledStage{range_of(whole(node)), range_of(before(node)), origin(node)});
    }
    return stages;
  }

 private:
  void add(const StageTiming& timing,
           const StageLink& link,
           const std::map<Stage, HoursRange>& given,
           const TemperatureAndHumidity& air) {
    const Phase& last = timing.phases.back();
    Node node;
    node.stage = link.stage;
    node.in_class = ends_of(timing.whole());
    node.own = ends_of(last.duration);
    node.rate = last.law.rate(air.temperature, air.humidity);
    for (std::size_t i = 0; link.after && i < nodes_.size(); ++i) {
      node.parent = nodes_[i].stage == *link.after ? std::optional(i) : node.parent;
    }
    if (const auto found = given.find(link.stage); found != given.end()) {
      node.given = Ends{found->second.low.hours(), found->second.high.hours()};
    }
    nodes_.push_back(node);
  }

  template <class Do>
  void each_ancestor(const Node& node, Do act) {
    for (auto at = node.parent; at; at = nodes_[*at].parent) {
      act(nodes_[*at]);
    }
  }

  [[nodiscard]] Ends before(const Node& node) const {
    Ends sum;
    for (auto at = node.parent; at; at = nodes_[*at].parent) {
      sum = sum + nodes_[*at].own;
    }
    return sum;
  }
  [[nodiscard]] Ends before_in_air(const Node& node) const {
    Ends sum;
    for (auto at = node.parent; at; at = nodes_[*at].parent) {
      sum = sum + nodes_[*at].own * (1.0 / nodes_[*at].rate);
    }
    return sum;
  }
  [[nodiscard]] Ends whole(const Node& node) const { return before(node) + node.own; }

  /// Fits the earlier phases into the label's hours of each stage.
  void make_room() {
    for (const Node& node : nodes_) {
      if (!node.given || !node.parent) {
        continue;
      }
      const Ends label = *node.given;
      const Ends earlier = before_in_air(node);
      if (label.low <= earlier.low + kResidue || label.high <= earlier.high + kResidue) {
        const Ends usual = earlier + node.own * (1.0 / node.rate);
        const double share = std::min(label.low / usual.low, label.high / usual.high);
        each_ancestor(node, [share](Node& ancestor) {
          ancestor.own = ancestor.given ? ancestor.own : ancestor.own * share;
        });
      }
      narrow_before(node, label.high - label.low);
    }
  }

  /// Raises the low ends before a stage, so that they spread no more than its label does.
  void narrow_before(const Node& node, double spread) {
    const Ends earlier = before_in_air(node);
    if (earlier.high - earlier.low <= spread) {
      return;
    }
    const double share = spread / (earlier.high - earlier.low);
    each_ancestor(node, [share](Node& ancestor) {
      ancestor.own.low = ancestor.own.high - share * (ancestor.own.high - ancestor.own.low);
    });
  }

  void take_label() {
    for (Node& node : nodes_) {
      if (node.carries) {
        node.own = on_grid(node.own);
      }
      if (node.given) {
        const Ends left = *node.given - before_in_air(node);
        const double low = std::max(left.low, node.parent ? kLeast : kGrid);
        node.own = on_grid(Ends{low, std::max(low, left.high)} * node.rate);
      }
    }
  }

  [[nodiscard]] bool is_fixed(const Node& node) const {
    return node.given || node.carries || node.scaled;
  }

  /// Whether the class has `first` no later than `second`, at both ends.
  [[nodiscard]] static bool precedes(const Node& first, const Node& second) {
    const Ends a = first.in_class;
    const Ends b = second.in_class;
    const bool same = a.low == b.low && a.high == b.high;
    return same ? first.stage < second.stage : a.low <= b.low && a.high <= b.high;
  }

  [[nodiscard]] bool out_of_order(const Node& first, const Node& second) const {
    const Ends a = whole(first);
    const Ends b = whole(second);
    return precedes(first, second) && (a.low > b.low + kResidue || a.high > b.high + kResidue);
  }

  /// How much the label's recoat is of the class's; without one, its stage that differs most.
  [[nodiscard]] double factor() const {
    double factor = 1.0;
    for (const Node& node : nodes_) {
      const double own = whole(node).high / node.in_class.high;
      if (node.given && node.stage == Stage::kRecoat) {
        return own;
      }
      if (node.given && std::abs(std::log(own)) > std::abs(std::log(factor))) {
        factor = own;
      }
    }
    return factor;
  }

  void scale_what_contradicts() {
    const double by = factor();
    for (bool again = true; again;) {
      again = false;
      for (Node& node : nodes_) {
        if (!is_fixed(node) && contradicts(node)) {
          node.own = on_grid(node.own * by);
          node.scaled = true;
          again = true;
        }
      }
    }
  }

  [[nodiscard]] bool contradicts(const Node& node) const {
    return std::any_of(nodes_.begin(), nodes_.end(), [&](const Node& other) {
      return is_fixed(other) && (out_of_order(node, other) || out_of_order(other, node));
    });
  }

  /// Keeps what was scaled between the label's own figures; in doubt the later.
  void keep_between() {
    for (Node& node : nodes_) {
      if (!node.scaled) {
        continue;
      }
      Ends at = whole(node);
      for (const Node& other : nodes_) {
        if (other.given && precedes(node, other)) {
          at = {std::min(at.low, whole(other).low), std::min(at.high, whole(other).high)};
        }
      }
      for (const Node& other : nodes_) {
        if (other.given && precedes(other, node)) {
          at = {std::max(at.low, whole(other).low), std::max(at.high, whole(other).high)};
        }
      }
      const Ends left = Ends{std::min(at.low, kMost), std::min(at.high, kMost)} - before(node);
      const double low = std::max(left.low, node.parent ? kLeast : kGrid);
      node.own = on_grid({low, std::max(low, left.high)});
    }
  }

  [[nodiscard]] FigureOrigin origin(const Node& node) const {
    if (node.given) {
      return FigureOrigin::kLabel;
    }
    const Ends now = whole(node);
    const bool moved = std::abs(now.low - node.in_class.low) > kResidue ||
                       std::abs(now.high - node.in_class.high) > kResidue;
    return moved ? FigureOrigin::kScaled : FigureOrigin::kClass;
  }

  std::vector<Node> nodes_;
};

}  // namespace

std::map<Stage, LabelledStage> stages_by_label(const Product& product,
                                               const std::vector<StageLink>& links,
                                               const std::map<Stage, HoursRange>& given,
                                               const TemperatureAndHumidity& air) {
  return Reckoning(product, links, given, air).run();
}

}  // namespace coatwright
