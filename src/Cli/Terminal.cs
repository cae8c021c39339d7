using Coldpeel.Workshop.Findings;

namespace Coldpeel.Cli;

/// <summary>Answers go to standard output, all else to standard error.</summary>
internal static class Terminal
{
    /// <summary>The answer: one JSON document, or words for a person.</summary>
    public static void Answer(string text) => Console.Out.WriteLine(text);

    /// <summary>Progress and words beside the answer.</summary>
    public static void Say(string text) => Console.Error.WriteLine(text);

    /// <summary>One line that says what is wrong with the input, and the exit code for it.</summary>
    public static int Refuse(Fault fault)
    {
        Say($"coldpeel: {fault}");
        return Exit.WrongInput;
    }

    /// <summary>Progress as it comes, without the delay of a posted callback, for somebody who watches; whoever keeps standard error gets only what matters.</summary>
    public static IProgress<string>? Progress { get; } = Console.IsErrorRedirected ? null : new Direct();

    private sealed class Direct : IProgress<string>
    {
        public void Report(string value) => Say(value);
    }
}
