#pragma once

#include <cstdint>
#include <vector>

namespace coatwright {

/// A bound of an integer variable x, as something that is true or not: on side 2x, x >= value; on
/// side 2x + 1, -x >= value. Both kinds are then one: what is known grows.
struct BoundLiteral {
  int side = 0;
  int value = 0;

  [[nodiscard]] int variable() const { return side / 2; }
};

[[nodiscard]] inline BoundLiteral at_least(int variable, int value) {
  return {2 * variable, value};
}
[[nodiscard]] inline BoundLiteral at_most(int variable, int value) {
  return {2 * variable + 1, -value};
}
[[nodiscard]] inline BoundLiteral negation(BoundLiteral literal) {
  return {literal.side ^ 1, 1 - literal.value};
}

/// Why a bound holds.
struct BoundReason {
  enum class Kind : std::uint8_t {
    kDecision,
    kClause,  ///< `id` of the learned clause.
    kLag,     ///< `id` of the rule: the literal follows from one other, worked out when asked.
    kStored   ///< The literals at `id` .. `id + count` of the trail's store.
  };
  Kind kind = Kind::kDecision;
  int id = 0;
  int count = 0;
};

/// The bounds of all variables as a search goes down and comes back, with the reason of each.
class BoundTrail {
 public:
  struct Entry {
    BoundLiteral literal;
    int previous;  ///< Entry before it on the same side; -1: the bound at the root.
    int level;
    BoundReason reason;
    std::size_t stored_before;  ///< Size of the store before this entry's reason.
  };

  /// @return the new variable, with values from 0 to `last`.
  int add_variable(int last);
  [[nodiscard]] int variables() const { return static_cast<int>(bounds_.size() / 2); }

  [[nodiscard]] int low(int variable) const { return bounds_[side_index(2 * variable)]; }
  [[nodiscard]] int high(int variable) const { return -bounds_[side_index(2 * variable + 1)]; }
  [[nodiscard]] bool is_fixed(int variable) const { return low(variable) == high(variable); }
  [[nodiscard]] bool is_true(BoundLiteral literal) const {
    return bounds_[side_index(literal.side)] >= literal.value;
  }
  [[nodiscard]] bool is_false(BoundLiteral literal) const { return is_true(negation(literal)); }
  [[nodiscard]] bool is_true_at_root(BoundLiteral literal) const {
    return root_[side_index(literal.side)] >= literal.value;
  }

  /// Writes a bound down; it is neither true nor false yet.
  void push(BoundLiteral literal, BoundReason reason, std::size_t stored_before);
  /// The first entry that made a true literal true; -1 when it holds at the root.
  [[nodiscard]] int entry_of(BoundLiteral literal) const;

  [[nodiscard]] const Entry& entry(int place) const {
    return entries_[static_cast<std::size_t>(place)];
  }
  [[nodiscard]] int size() const { return static_cast<int>(entries_.size()); }
  [[nodiscard]] int level() const { return static_cast<int>(level_starts_.size()); }
  void begin_level() { level_starts_.push_back(size()); }
  /// Takes back what was written after a level. @param undone gets each side that changed.
  void back_to(int level, std::vector<int>& undone);
  /// What is known at level 0 is known for good, and needs no reasons any more.
  void settle_root();

  /// Literals of reasons that are kept as long as the entries that they explain.
  [[nodiscard]] std::vector<BoundLiteral>& store() { return store_; }
  [[nodiscard]] const std::vector<BoundLiteral>& store() const { return store_; }

 private:
  static std::size_t side_index(int side) { return static_cast<std::size_t>(side); }

  std::vector<int> bounds_;  ///< Per side.
  std::vector<int> root_;
  std::vector<int> latest_;  ///< Per side: its last entry, or -1.
  std::vector<Entry> entries_;
  std::vector<int> level_starts_;
  std::vector<BoundLiteral> store_;
};

}  // namespace coatwright
