using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Shelf;

/// <summary>The kinds of steps by the words of the workshop file.</summary>
public static class StepWord
{
    /// <summary>"pre-press".</summary>
    public static string Of(StepKind kind) =>
        kind switch
        {
            StepKind.Print => "print",
            StepKind.Bond => "bond",
            StepKind.HotPeel => "hot-peel",
            StepKind.Trim => "trim",
            StepKind.PrePress => "pre-press",
            StepKind.Press => "press",
            StepKind.Cool => "cool",
            StepKind.ColdPeel => "cold-peel",
            StepKind.FinishPress => "finish-press",
            _ => "inspect",
        };

    /// <summary>Whether a word is one of them.</summary>
    public static bool IsOne(string word) => Enum.GetValues<StepKind>().Any(k => Of(k) == word);

    /// <summary>The kind of a word that the schema let through.</summary>
    public static StepKind Read(string word) => Enum.GetValues<StepKind>().First(k => Of(k) == word);
}
