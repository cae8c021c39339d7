namespace Coldpeel.Cli;

/// <summary>What a verb tells the shell.</summary>
internal static class Exit
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Done, but the work as asked cannot be made.</summary>
    public const int CannotBeMade = 1;

    /// <summary>The input or the command is wrong.</summary>
    public const int WrongInput = 2;

    /// <summary>A fault of ours.</summary>
    public const int OurFault = 3;
}
