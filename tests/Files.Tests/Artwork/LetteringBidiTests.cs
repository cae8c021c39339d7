using System.Globalization;
using System.Text;
using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork.Lettering;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Which way text runs, held against GNU FriBidi and against the Unicode data that Python brings.</summary>
public sealed class LetteringBidiTests
{
    // Latin, Hebrew, Arabic, both kinds of digits, marks, signs between numbers, brackets, spaces.
    private const string Alphabet = "abXאבגدرس12٣٤۵+-#%€.,:/ ()[]!?\u0301\u05B8\u064E&\u00A0";

    [Fact]
    public async Task Levels_agree_with_GNU_FriBidi_on_three_thousand_lines()
    {
        var fribidi = Place.Tool("fribidi");
        var chance = new Rng(20261125);
        var lines = Enumerable
            .Range(0, 3000)
            .Select(_ =>
                string.Concat(
                    Enumerable.Range(0, 1 + chance.Below(14)).Select(_ => Alphabet[chance.Below(Alphabet.Length)])
                )
            )
            .Select(l => l.Trim(' ', '\u00A0') is { Length: > 0 } t ? t : "a")
            .ToArray();
        var run = await Cli.Wrap(fribidi)
            .WithArguments(["--charset", "UTF-8", "--levels", "--novisual", "--nopad", "--nobreak", "--width", "10000"])
            .WithStandardInputPipe(PipeSource.FromString(string.Join("\n", lines) + "\n"))
            .ExecuteBufferedAsync(Encoding.UTF8, TestContext.Current.CancellationToken);
        var said = run.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(lines.Length, said.Length);
        for (var i = 0; i < lines.Length; i++)
        {
            var theirs = said[i]
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(n => byte.Parse(n, CultureInfo.InvariantCulture));
            Assert.True(
                theirs.SequenceEqual(BidiLine.Levels(lines[i], out _)),
                $"{string.Join(' ', lines[i].Select(c => $"{(int)c:X4}"))}: theirs {said[i]}, ours {string.Join(' ', BidiLine.Levels(lines[i], out _))}"
            );
        }
    }

    [Fact]
    public async Task Letters_marks_and_digits_have_the_classes_of_the_Unicode_character_database()
    {
        const string program = """
            import unicodedata as u
            for c in range(0x30000):
                k = u.category(chr(c))
                if k[0] in "LM" or k == "Nd" or c < 0x2070 and k[0] not in "C":
                    print(c, u.bidirectional(chr(c)))
            """;
        var run = await Cli.Wrap(Place.Tool("python3"))
            .WithArguments(["-c", program])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        var wrong = new List<string>();
        var count = 0;
        foreach (var line in run.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var (code, theirs) = (int.Parse(line.Split(' ')[0], CultureInfo.InvariantCulture), line.Split(' ')[1]);
            var ours = BidiClasses.Of(new Rune(code)).ToString();
            count++;
            if (ours != theirs)
            {
                wrong.Add($"{code:X4} is {theirs}, not {ours}");
            }
        }

        Assert.True(count > 90_000, $"Only {count} characters were compared.");
        Assert.True(wrong.Count == 0, string.Join("; ", wrong.Take(80)));
    }

    [Theory]
    // UAX #9 keeps numbers left to right within right-to-left text: the 12 of "dana 12 b" in Hebrew stands between its words, not turned round.
    [InlineData("דנה 12 ב", "6..8 4..6 0..4")]
    [InlineData("No. 7 דנה", "0..6 6..9")]
    public void Numbers_stay_left_to_right_and_nothing_is_turned_round_in_memory(string line, string runs)
    {
        var cut = TextRuns.InSight(line).Select(r => $"{r.Start}..{r.Start + r.Length}");
        Assert.Equal(runs, string.Join(' ', cut));
    }
}
