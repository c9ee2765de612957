// matches, replace, split. Source: XQuery 1.0 and XPath 2.0 Functions and Operators, 7.6; XML Schema Part 2,
// appendix F; rows marked `ours` are readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("a pattern matches a text somewhere or not", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"anywhere", R"(matches("banana", "nan"))", "true"},
      {"an exact count", R"(matches("banana", "^(an|b){2}"))", "true"},
      {"a count from to", R"(matches("aaaa", "^a{2,3}$"))", "false"},
      {"the start is the start of all", R"(matches("a\nb", "^b"))", "false"},
      {"flag m: of a line", R"(matches("a\nb", "^b", "m"))", "true"},
      {"a line feed at the end starts no line", R"(matches("abcd\ndefg\n", "^$", "m"))", "false"},
      {"an empty line", R"(matches("abcd\n\ndefg\n", "^$", "m"))", "true"},
      {"a dot is no line feed", R"(matches("a\nb", "a.b"))", "false"},
      {"nor a carriage return", R"(matches("a\rb", "a.b"))", "false"},
      {"flag s: it is", R"(matches("a\nb", "a.b", "s"))", "true"},
      {"flag i", R"(matches("ÄRGER", "ärger", "i"))", "true"},
      {"flag i does not touch a category", R"(matches("a", "\\p{Lu}", "i"))", "false"},
      {"flag x: spaces do not count", R"(matches("hello world", " hello[ ]w orld ", "x"))", "true"},
      {"digits of any script", R"(matches("٣", "^\\d$"))", "true"},
      {"a space is no word character", R"(matches("a b", "^\\w+$"))", "false"},
      {"not a space", R"(matches("ab", "^\\S+$"))", "true"},
      {"a category", R"(matches("Ω", "^\\p{Lu}$"))", "true"},
      {"not of a category", R"(matches("Ω", "^\\P{Lu}$"))", "false"},
      {"a block", R"(matches("Ω", "^\\p{IsGreekandCoptic}$"))", "true"},
      {"not of a block", R"(matches("Ω", "^\\P{IsBasicLatin}$"))", "true"},
      {"a name of XML", R"(matches("lesion-1", "^\\i\\c*$"))", "true"},
      {"a digit starts none", R"(matches("1-lesion", "^\\i\\c*$"))", "false"},
      {"a set without another", R"(matches("o", "^[a-z-[aeiou]]$"))", "false"},
      {"what is left of it", R"(matches("p", "^[a-z-[aeiou]]$"))", "true"},
      {"twice taken out", R"(matches("e", "^[a-z-[aeiou-[e]]]+$"))", "true"},
      {"the same letter again", R"(matches("hello", "(.)\\1"))", "true"},
      {"no letter again", R"(matches("helo", "(.)\\1"))", "false"},
      {"again, case aside", R"(matches("aA", "(a)\\1", "i"))", "true"},
      {"the same word again", R"(matches("no no", "^([a-z]+) \\1$"))", "true"},
      {"group 1 and a digit", R"(matches("aa0", "^(a)\\10$"))", "true"},
      {"as many in front as behind", R"(matches("xxyxx", "^(x*)y\\1$"))", "true"},
      {"lazily", R"(matches("abab", "^(ab)+?\\1$"))", "true"},
      {"null flags are none", R"(matches("a", "a", null))", "true"},
      {"by name", R"(matches(pattern: "a", input: "A", flags: "i"))", "true"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("what is no pattern is null, with a note", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* pattern;
  };
  const auto row = GENERATE(values<Row>({
      {"a bracket that is not closed", "["},
      {"a group that is not closed", "(a"},
      {"a group that is not opened", "a)"},
      {"an empty set", "[]"},
      {"a quantity of nothing", "*a"},
      {"a quantity twice", "a**"},
      {"a quantity that runs backwards", "a{3,2}"},
      {"a brace by itself", "a{"},
      {"a range that runs backwards", "[z-a]"},
      {"a range up to a class", R"([a-\\d])"},
      {"an escape that is not known", R"(\\y)"},
      {"a backslash at the end", R"(\\)"},
      {"a category that is not known", R"(\\p{Lx})"},
      {"a block that is not known", R"(\\p{IsKlingon})"},
      {"a group that is not there", R"((.)\\2)"},
      {"a group that is not closed yet", R"((a\\1))"},
      {"a group referred to within brackets", R"((a)[\\1])"},
      {"no group has the number 0", R"((a)\\0)"},
      {"look-ahead is not in the standard", "(?=a)"},
      {"nested too deep",
       "((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((("
       "((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((("
       "(((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((("},
      {"too large for an automaton", "(((a{1000}){1000}){1000}){1000}"},
  }));
  INFO(row.because << ": " << row.pattern);
  const std::string text = "matches(\"a\", \"" + std::string(row.pattern) + "\")";
  CHECK(value_of(text) == "null");
  CHECK(notes_of(text) == "bad_argument");
}

TEST_CASE("flags other than s, m, i and x are refused", "[feel][builtins]") {
  CHECK(notes_of(R"(matches("a", "a", "p"))") == "bad_argument");
  CHECK(notes_of(R"(matches("a", "a", " "))") == "bad_argument");
  CHECK(notes_of(R"(matches("a", "a", ["i"]))") == "bad_argument");
}

TEST_CASE("every match is replaced", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"plainly", R"(replace("banana", "a", "o"))", R"("bonono")"},
      {"the first way of a choice wins", R"x(replace("abcd", "(ab)|(a)", "[1=$1][2=$2]"))x",
       R"("[1=ab][2=]cd")"},
      {"greedily", R"(replace("abracadabra", "a.*a", "*"))", R"("*")"},
      {"lazily", R"(replace("abracadabra", "a.*?a", "*"))", R"("*c*bra")"},
      {"groups in another order", R"x(replace("2024-02-29", "(\\d+)-(\\d+)-(\\d+)", "$3.$2.$1"))x",
       R"("29.02.2024")"},
      {"all of the match", R"(replace("abc", "b", "[$0]"))", R"("a[b]c")"},
      {"a dollar", R"(replace("abc", "b", "\\$"))", R"("a$c")"},
      {"a backslash", R"(replace("abc", "b", "\\\\"))", R"("a\\c")"},
      {"group 1 and a digit", R"x(replace("abc", "(b)", "$12"))x", R"("ab2c")"},
      {"a group that is not there", R"x(replace("abc", "(b)", "[$2]"))x", R"("a[]c")"},
      {"only the start of the text", R"(replace("aaa", "^a", "b"))", R"("baa")"},
      {"by referring back", R"(replace("aabbcd", "(.)\\1", "<$1>"))", R"("<a><b>cd")"},
      {"code points stay whole", R"(replace("🐎x🐎", "🐎", "o"))", R"("oxo")"},
      {"by name", R"(replace(input: "abc", pattern: "[A-Z]", replacement: "#", flags: "i"))", R"("###")"},
      {"a dollar without a number", R"(replace("abc", "b", "$"))", "null"},
      {"a backslash without a meaning", R"(replace("abc", "b", "\\n"))", "null"},
      {"a pattern that matches nothing", R"(replace("abc", "x*", "-"))", "null"},
      {"null instead", R"(replace("abc", "b", null))", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a text is split at every match", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"between words", R"(split("John Doe", "\\s"))", R"(["John", "Doe"])"},
      {"empty pieces stay", R"(split(";a;;b;", ";"))", R"(["", "a", "", "b", ""])"},
      {"a delimiter of several characters", R"(split("a, b,c", ",\\s*"))", R"(["a", "b", "c"])"},
      {"no delimiter in it", R"(split("abc", ";"))", R"(["abc"])"},
      {"the empty text (ours)", R"(split("", ";"))", R"([""])"},
      {"by name", R"(split(delimiter: ",", string: "foo,bar"))", R"(["foo", "bar"])"},
      {"a delimiter that is nothing", R"(split("abc", ""))", "null"},
      {"null", R"(split(null, ","))", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("matching by trying finds what RE2 finds", "[feel][builtins]") {
  // The set without itself, none of it, takes nothing and leaves the pattern to trying.
  const std::string tried = "[a-[a]]{0}";
  const auto pattern = GENERATE(values<const char*>({
      "a",        "ab|a",          "a|ab",       "a+",           "a+?",
      "a{2}",     "a{1,2}",        "a{2,}?b",    "(a|b)+c",      "(?:ab)+",
      "(?:ab)+?", "(a*b)+",        "^a",         "a$",           "b?$|a",
      "[^a]",     "[a-c]+",        "[^a-b]+c",   "a.b",          ".+",
      ".+?b",     "(a(b)?)+",      "((a)|b)+c",  "(?:a|b|c){2}", "\\w+",
      "\\s",      "(a|ab)(c|bcd)", "(?:a?){3}b", "(?:a+b?)+c",   "x*y",
      "((a+)b)+", "\\p{Lu}b",      "🐎+",
  }));
  const auto text = GENERATE(values<const char*>({
      "",
      "a",
      "ab",
      "aab",
      "abc",
      "aaabbbccc",
      "abcd",
      "abab abab",
      "cab bac",
      "xxxy",
      "a\\nb",
      "Ab aB",
      "🐎🐎a",
      "ccc",
  }));
  const auto flags = GENERATE(values<const char*>({"", "i", "s", "m"}));
  const auto marked = [&](const std::string& whole) {
    return value_of("replace(\"" + std::string(text) + "\", \"" + whole + "\", \"<$1|$2>\", \"" + flags +
                    "\")");
  };
  INFO(pattern << " in `" << text << "`, flags `" << flags << "`");
  CHECK(marked("(" + std::string(pattern) + ")" + tried) == marked("(" + std::string(pattern) + ")"));
}

TEST_CASE("a pattern whose tries explode comes to an end", "[feel][builtins]") {
  CHECK(value_of(R"(matches("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", "^(a+)+$"))") == "true");
  CHECK(value_of(R"(matches(string join(for i in 1..5000 return "ab"), "^((ab)\\2)+$"))") == "null");
}
