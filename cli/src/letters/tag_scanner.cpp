#include "letters/tag_scanner.h"

namespace cli {

namespace {

constexpr std::string_view opening = "{{", closing = "}}";

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1));
}

class Scanner {
 public:
  Scanner(std::string_view text, const std::string& source, engine::Errors& errors)
      : text_(text), source_(source), errors_(errors) {}

  std::vector<TemplatePiece> scan() {
    while (at_ < text_.size()) {
      const std::size_t tag = text_.find(opening, at_);
      add_text(tag == std::string_view::npos ? text_.size() : tag);
      if (at_ < text_.size() && !add_tag()) break;
    }
    return std::move(pieces_);
  }

 private:
  engine::Place place_of(std::size_t at) const {
    engine::Place place;
    place.source = source_;
    const std::string_view before = text_.substr(0, at);
    const std::size_t line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    place.line = 1;
    for (const char c : before) place.line += c == '\n' ? 1 : 0;
    place.column = static_cast<std::uint32_t>(at - line_start + 1);
    place.excerpt = std::string(text_.substr(line_start, text_.find('\n', line_start) - line_start));
    return place;
  }

  void add_text(std::size_t end) {
    if (end > at_) pieces_.push_back({0, std::string(text_.substr(at_, end - at_)), {}, false});
    at_ = end;
  }

  bool add_tag() {
    const std::size_t start = at_, first = start + opening.size();
    const bool is_unescaped = text_.substr(first).starts_with('{');
    const std::size_t end = text_.find(is_unescaped ? std::string_view("}}}") : closing, first);
    if (end == std::string_view::npos) {
      errors_.push_back(
          {"unclosed_tag", "a tag is not closed", place_of(start), "tags are written `{{name}}`"});
      return false;
    }
    std::string inside = trimmed(text_.substr(first, end - first));
    char sigil = 'v';
    if (!inside.empty() && std::string_view("#^/>!&={").find(inside[0]) != std::string_view::npos) {
      sigil = inside[0];
      inside = trimmed(std::string_view(inside).substr(1));
    }
    at_ = end + (is_unescaped ? 3 : closing.size());
    pieces_.push_back({sigil, std::move(inside), place_of(start), sigil != 'v' && takes_its_line(start)});
    return true;
  }

  bool takes_its_line(std::size_t start) {
    const bool begins_line = start == 0 || text_[start - 1] == '\n';
    if (!begins_line || at_ >= text_.size() || text_[at_] != '\n') return false;
    ++at_;
    return true;
  }

  std::string_view text_;
  const std::string& source_;
  engine::Errors& errors_;
  std::vector<TemplatePiece> pieces_;
  std::size_t at_ = 0;
};

}  // namespace

std::vector<TemplatePiece> scan_template(std::string_view text, const std::string& source,
                                         engine::Errors& errors) {
  return Scanner(text, source, errors).scan();
}

}  // namespace cli
