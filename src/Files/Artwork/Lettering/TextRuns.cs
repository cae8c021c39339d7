using HarfBuzzSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>A stretch of a line that is shaped in one go.</summary>
/// <param name="Start">Its first UTF-16 code unit.</param>
/// <param name="Length">Its length in code units.</param>
/// <param name="RightToLeft">Its direction.</param>
/// <param name="Script">Its script.</param>
internal readonly record struct TextRun(int Start, int Length, bool RightToLeft, Script Script)
{
    /// <summary>Whether letters of the script join by hand-written strokes, so that space between them would tear words.</summary>
    public bool Joins =>
        Script == Script.Arabic
        || Script == Script.Syriac
        || Script == Script.Mongolian
        || Script == Script.Nko
        || Script == Script.Mandaic
        || Script == Script.PhagsPa
        || Script == Script.Adlam
        || Script == Script.HanifiRohingya;
}

/// <summary>Cuts a line into runs of one direction and one script.</summary>
internal static class TextRuns
{
    /// <summary>The runs in the order in which they stand on the line from left to right.</summary>
    public static List<TextRun> InSight(string line)
    {
        var levels = BidiLine.Levels(line, out _);
        var scripts = Scripts(line);
        var runs = new List<(TextRun Run, int Level)>();
        var start = 0;
        for (var i = 1; i <= line.Length; i++)
        {
            if (i == line.Length || levels[i] != levels[start] || scripts[i] != scripts[start])
            {
                runs.Add((new(start, i - start, (levels[start] & 1) == 1, scripts[start]), levels[start]));
                start = i;
            }
        }

        // UAX #9, L2: from the highest level down to 1, turn round every stretch of runs at that level or above.
        for (var level = runs.Select(r => r.Level).DefaultIfEmpty(0).Max(); level > 0; level--)
        {
            for (var i = 0; i < runs.Count; i++)
            {
                var end = i;
                while (end < runs.Count && runs[end].Level >= level)
                {
                    end++;
                }

                runs.Reverse(i, end - i);
                i = Math.Max(i, end - 1);
            }
        }

        return runs.ConvertAll(r => r.Run);
    }

    /// <summary>The script of every code unit; marks, digits, spaces and signs go with what stands before them, at the start with what follows.</summary>
    private static Script[] Scripts(string line)
    {
        var scripts = new Script[line.Length];
        var current = Script.Common;
        var at = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            var own = UnicodeFunctions.Default.GetScript(rune.Value);
            if (own != Script.Common && own != Script.Inherited && own != Script.Unknown)
            {
                if (current == Script.Common)
                {
                    Array.Fill(scripts, own, 0, at);
                }

                current = own;
            }

            Array.Fill(scripts, current, at, rune.Utf16SequenceLength);
            at += rune.Utf16SequenceLength;
        }

        return scripts;
    }
}
